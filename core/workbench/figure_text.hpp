// A figure as the family's book has it.
#pragma once

#include "core/model/family.hpp"

#include <string>

namespace soot {

/// "29.20 mm +/- 0.05", "125 to 140 bar, least 110": all its numbers with the same places, as many
/// as the finest needs.
std::string print_figure(const Figure& figure);

}  // namespace soot
