// The figures of a family that the program knows: what each of them measures, so that a bore
// without a unit, or a length where an angle belongs, is refused where it is written; and its words
// and place on the spec table. A family may give further figures of its own, in any unit.
#pragma once

#include "core/base/unit.hpp"

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace soot {

/// What a figure may be besides more than 0.
enum class Least { above_zero, zero, any };

struct FigureKey {
  std::string_view key;
  Dimension dimension;
  std::string_view group;  ///< heading on the spec table
  std::string_view words;
  std::string_view needs = "";  ///< feature without which the engine has no such figure
  Least least = Least::above_zero;
};

/// In the order of the spec table.
std::span<const FigureKey> known_figures();

/// Nothing for a family's own figure.
const FigureKey* find_figure_key(std::string_view key);

std::vector<std::string> figure_keys();

}  // namespace soot
