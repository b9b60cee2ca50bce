#include "core/knowledge/scale.hpp"

#include "core/base/text.hpp"
#include "core/model/words.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <cmath>
#include <vector>

namespace soot {
namespace {

std::vector<std::string> words_of(const std::map<std::string, double>& words) {
  std::vector<std::string> out;
  for (const auto& [word, value] : words)
    out.push_back(word);
  return out;
}

std::map<std::string, double> read_words(Reader& root, std::string_view section, double most) {
  std::map<std::string, double> out;
  std::optional<Reader> table = root.table(section);
  if (!table) {
    root.complain(section, fmt::format("[{}] is missing", section));
    return out;
  }
  for (const std::string& word : table->keys()) {
    const std::optional<double> value = table->number(word);
    if (!value) continue;
    if (*value < 0 || *value > most)
      table->complain(word, fmt::format("{} is {} (expected 0 to {})", word, *value, most));
    out[word] = *value;
  }
  return out;
}

}  // namespace

Scale read_scale(Reader root) {
  constexpr double most_odds_factor = 1000;
  Scale scale;
  scale.strength = read_words(root, "strength", 1);
  scale.strength.emplace("never", 0.0);
  scale.common = read_words(root, "common", most_prior);
  scale.after = read_words(root, "after", most_odds_factor);
  scale.cure = read_words(root, "cure", 1);
  if (std::optional<Reader> table = root.table("history")) {
    double sum = 0;
    for (std::size_t h = 0; h < histories.size(); ++h) {
      if (!table->has(histories[h]))
        table->complain(histories[h], fmt::format("history {} is missing", histories[h]));
      scale.history_prior[h] = table->number(histories[h]).value_or(0);
      if (scale.history_prior[h] < 0)
        table->complain(histories[h],
                        fmt::format("{} is negative (expected 0 to 1)", histories[h]));
      sum += scale.history_prior[h];
    }
    if (std::abs(sum - 1) > 1e-9)
      root.complain("history", fmt::format("the histories add up to {} (expected 1)", sum));
    table->done();
  } else {
    root.complain("history", "[history] is missing");
  }
  root.done();
  return scale;
}

std::optional<double> read_graded(Reader& reader, std::string_view key,
                                  const std::map<std::string, double>& words, double most) {
  if (!reader.is_text(key)) {
    const std::optional<double> value = reader.number(key);
    if (value && (*value < 0 || *value > most)) {
      reader.complain(key, fmt::format("{} is {} (expected 0 to {}, or one of {})", key, *value,
                                       most, fmt::join(words_of(words), " ")));
      return std::nullopt;
    }
    return value;
  }
  const std::string word = reader.text(key).value_or("");
  const auto found = words.find(word);
  if (found != words.end()) return found->second;
  reader.complain(key, fmt::format("'{}' is not on the scale (expected one of {}, or a number)",
                                   word, fmt::join(words_of(words), " ")));
  return std::nullopt;
}

}  // namespace soot
