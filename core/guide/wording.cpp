#include "core/guide/wording.hpp"

#include <algorithm>
#include <cctype>

namespace soot {
namespace {

bool drop_ending(std::string& word, std::string_view ending, std::size_t least_left) {
  if (word.size() < ending.size() + least_left || !word.ends_with(ending)) return false;
  word.resize(word.size() - ending.size());
  return true;
}

}  // namespace

std::string stem(std::string word) {
  const bool is_number = std::all_of(word.begin(), word.end(), [](char c) {
    return std::isdigit(static_cast<unsigned char>(c)) != 0;
  });
  if (is_number || word.size() <= 3) return word;
  if (!word.ends_with("ss")) drop_ending(word, "s", 3);
  drop_ending(word, "ing", 3) || drop_ending(word, "ed", 3) || drop_ending(word, "ly", 3);
  drop_ending(word, "e", 3) || drop_ending(word, "y", 3);
  const std::size_t n = word.size();
  if (n > 3 && word[n - 1] == word[n - 2]) word.pop_back();  // run-n-ing
  return word;
}

std::vector<std::string> stems_of(std::string_view text) {
  std::vector<std::string> out;
  std::string word;
  const auto finish = [&] {
    if (!word.empty()) out.push_back(stem(std::move(word)));
    word.clear();
  };
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    if (std::isalnum(byte) != 0)
      word += static_cast<char>(std::tolower(byte));
    else if (c != '\'' && (byte & 0x80U) == 0)  // a typographic apostrophe is beyond ASCII
      finish();
  }
  finish();
  return out;
}

Wording::Wording(const Entries<Synonyms>& thesaurus) {
  for (const Synonyms& group : thesaurus) {
    if (group.words.empty()) continue;
    // The sign keeps a group apart from its own first word: said alone that means the group too.
    const std::string head = group.words.front().empty() ? "" : "=" + group.words.front();
    for (const std::string& phrase : group.words) {
      Words words = stems_of(phrase);
      if (words.empty()) continue;
      longest_ = std::max(longest_, words.size());
      same_.emplace(std::move(words), head);
    }
  }
}

std::vector<Token> Wording::tokens(const std::vector<std::string>& stems) const {
  std::vector<Token> out;
  for (std::size_t i = 0; i < stems.size();) {
    std::size_t length = std::min(longest_, stems.size() - i);
    for (; length > 0; --length) {
      const auto from = stems.begin() + static_cast<std::ptrdiff_t>(i);
      const auto found = same_.find(Words(from, from + static_cast<std::ptrdiff_t>(length)));
      if (found == same_.end()) continue;
      if (!found->second.empty()) out.push_back({found->second, i, length});
      break;
    }
    if (length == 0) out.push_back({stems[i], i, 1});
    i += std::max<std::size_t>(length, 1);
  }
  return out;
}

std::vector<std::string> Wording::tokens(std::string_view text) const {
  std::vector<std::string> out;
  for (Token& token : tokens(stems_of(text)))
    out.push_back(std::move(token.text));
  return out;
}

std::vector<std::string> Wording::stems() const {
  std::vector<std::string> out;
  for (const auto& [words, head] : same_)
    out.insert(out.end(), words.begin(), words.end());
  return out;
}

}  // namespace soot
