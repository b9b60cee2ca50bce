// One figure of a family in words.
#pragma once

#include "core/model/family.hpp"

#include <string>

namespace soot {

/// A figure as the family's book has it, with the places written there: "29.20 mm +/- 0.05", "125
/// to 140 bar, least 110".
std::string print_figure(const Figure& figure);

}  // namespace soot
