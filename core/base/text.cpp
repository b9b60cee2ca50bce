#include "core/base/text.hpp"

#include <algorithm>
#include <numeric>

namespace soot {

std::size_t edit_distance(std::string_view a, std::string_view b) {
  std::vector<std::size_t> before(b.size() + 1), above(b.size() + 1), row(b.size() + 1);
  std::iota(above.begin(), above.end(), std::size_t{0});
  for (std::size_t i = 1; i <= a.size(); ++i) {
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t replace = above[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
      row[j] = std::min({above[j] + 1, row[j - 1] + 1, replace});
      const bool swapped = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
      if (swapped) row[j] = std::min(row[j], before[j - 2] + 1);
    }
    before = above;
    above = row;
  }
  return above[b.size()];
}

std::optional<std::string> nearest(std::string_view word, const std::vector<std::string>& known) {
  const std::size_t allowed = word.size() < 5 ? 1 : 2;
  std::optional<std::string> best;
  std::size_t best_distance = allowed + 1;
  for (const std::string& candidate : known) {
    // Each letter more or less is a change by itself: most words are passed over by their length.
    if (std::max(word.size(), candidate.size()) > std::min(word.size(), candidate.size()) + allowed)
      continue;
    const std::size_t distance = edit_distance(word, candidate);
    if (distance < best_distance) {
      best = candidate;
      best_distance = distance;
    }
  }
  return best;
}

std::string did_you_mean(std::string_view word, const std::vector<std::string>& known) {
  const std::optional<std::string> found = nearest(word, known);
  return found ? ", did you mean " + *found + "?" : std::string{};
}

std::string_view trim(std::string_view text) {
  constexpr std::string_view blanks = " \t\r\n";
  const std::size_t begin = text.find_first_not_of(blanks);
  if (begin == std::string_view::npos) return {};
  return text.substr(begin, text.find_last_not_of(blanks) - begin + 1);
}

std::vector<std::string> split(std::string_view text, char separator) {
  std::vector<std::string> parts;
  std::size_t begin = 0;
  while (true) {
    const std::size_t end = text.find(separator, begin);
    parts.emplace_back(text.substr(begin, end - begin));
    if (end == std::string_view::npos) return parts;
    begin = end + 1;
  }
}

std::size_t width_of(std::string_view text) {
  return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char c) {
    return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
  }));
}

namespace {

// The words of a paragraph; a percent sign stays with its number.
std::vector<std::string> words_of(std::string_view paragraph) {
  std::vector<std::string> words;
  for (const std::string& word : split(paragraph, ' ')) {
    if (word.empty()) continue;
    if (word.front() == '%' && !words.empty())
      words.back() += ' ' + word;
    else
      words.push_back(word);
  }
  return words;
}

}  // namespace

std::string fold(std::string_view text, std::size_t width, std::string_view first,
                 std::string_view indent) {
  std::string out;
  for (const std::string& paragraph : split(text, '\n')) {
    std::string line{out.empty() ? first : indent};
    bool line_is_empty = true;
    for (const std::string& word : words_of(paragraph)) {
      if (!line_is_empty && width_of(line) + 1 + width_of(word) > width) {
        out += (out.empty() ? "" : "\n") + line;
        line = std::string{indent};
        line_is_empty = true;
      }
      if (!line_is_empty) line += ' ';
      line += word;
      line_is_empty = false;
    }
    out += (out.empty() ? "" : "\n") + line;
  }
  return out;
}

}  // namespace soot
