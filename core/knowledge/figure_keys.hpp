// The figures of a family that the program counts with, and what each of them measures: so that a
// bore without a unit, or a length where an angle belongs, is refused where it is written. A family
// may give further figures of its own, in any unit.
#pragma once

#include "core/base/unit.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace soot {

/// What a figure measures; nothing for a family's own.
std::optional<Dimension> dimension_of_figure(std::string_view key);

std::vector<std::string> figure_keys();

}  // namespace soot
