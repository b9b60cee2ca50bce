// Degrees, which the model speaks, and radians, which sines want.
#pragma once

#include <numbers>

namespace soot::calc {

inline constexpr double rad_per_deg = std::numbers::pi / 180;

}  // namespace soot::calc
