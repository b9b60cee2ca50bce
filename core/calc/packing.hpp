// What is put between lifter and plunger, or under the pump, to move port closing: a button on the
// lifter, thicker = earlier; a shim under the pump, thicker = later. Both move the plunger by their
// own thickness, so they go through the lift at port closing like a lifter's height.
//
// Signs as published for small engines: TM 5-6115-584-34 (buttons); workshop manual 1-S30 (shims:
// 0.05 mm, 0.5 deg). "Late" is positive, as everywhere.
#pragma once

#include "core/calc/flank.hpp"

namespace soot::calc {

/// Change of the button that puts right a port closing so late.
inline double button_change_mm(const Flank& flank, double late_deg) {
  return flank.low_for_late_mm(late_deg);
}
/// How late a port closed that this change of button put right; nothing off the flank.
inline std::optional<double> late_of_button_deg(const Flank& flank, double change_mm) {
  return flank.late_for_low_deg(change_mm);
}

/// The same for the shim under the pump: a late port wants a thinner one.
inline double shim_change_mm(const Flank& flank, double late_deg) {
  return -flank.low_for_late_mm(late_deg);
}
inline std::optional<double> late_of_shim_deg(const Flank& flank, double change_mm) {
  return flank.late_for_low_deg(-change_mm);
}

}  // namespace soot::calc
