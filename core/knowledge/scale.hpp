// The words in which the knowledge speaks, and the numbers they stand for (knowledge/scale.toml).
#pragma once

#include "core/base/problem.hpp"
#include "core/table/reader.hpp"

#include <array>
#include <map>
#include <optional>
#include <string>
#include <string_view>

namespace soot {

struct Scale {
  std::map<std::string, double> strength;  ///< P(a grade fires a symptom); `never` is 0
  std::map<std::string, double> common;    ///< prior of one instance after an ordinary history
  std::map<std::string, double> after;     ///< factor on the odds
  std::map<std::string, double> cure;      ///< chance that a correction cures
  std::array<double, 5> history_prior{};   ///< by `histories`, sums to 1

  /// Whether every kind of word has some; `never` is always there.
  bool is_whole() const {
    return strength.size() > 1 && !common.empty() && !after.empty() && !cure.empty();
  }
  bool operator==(const Scale&) const = default;
};

/// Nothing is certain before it is looked at: odds of it would be infinite.
inline constexpr double most_prior = 0.999;

/// Complaints go to the reader's document.
Scale read_scale(Reader root);

/// A key that holds a word of the list or a number in [0, most]; complains of anything else.
std::optional<double> read_graded(Reader& reader, std::string_view key,
                                  const std::map<std::string, double>& words, double most);

}  // namespace soot
