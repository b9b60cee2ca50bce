// What one angle common to all cylinders does to depth and spill of each: the table that the sums
// of tooth, lash and mark show.
#pragma once

#include "core/calc/flank.hpp"
#include "core/calc/worksheet.hpp"

#include <string_view>

namespace soot::calc {

/// Adds, for every cylinder, depth and spill as they read with the drive (or mark) late by so much;
/// a change instead of a reading where the family has no figure. `what` names the columns.
void add_pattern(Worksheet& sheet, const Family& family, const Flank& flank, double late_deg,
                 std::string_view what);

/// "depth +1.44 mm, spill -12.0 deg".
std::string shift_words(const Flank& flank, double late_deg);

}  // namespace soot::calc
