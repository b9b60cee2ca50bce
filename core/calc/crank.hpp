// The crank, the piston and the rim: how far the piston stands below the top at an angle, and what
// an angle is on the flywheel's rim.
//
// x = a + l - a cos t - sqrt(l^2 - a^2 sin^2 t), a half the stroke, l the rod: Heywood, Internal
// Combustion Engine Fundamentals (1988), eq. 2.4 to 2.6 (as quoted by others). No pin offset, no
// slack in the bearings.
#pragma once

#include <optional>

namespace soot::calc {

struct CrankGear {
  double stroke_mm = 0;
  double rod_mm = 0;  ///< centre to centre, longer than half the stroke
};

/// Below the top, mm; the same on both sides of it.
double piston_drop_mm(const CrankGear& gear, double from_top_deg);
/// mm of piston a crank degree.
double piston_slope_mm_per_deg(const CrankGear& gear, double from_top_deg);
/// Degrees from the top, 0 to 180, at a drop within the stroke; nothing outside it.
std::optional<double> angle_of_drop_deg(const CrankGear& gear, double drop_mm);
/// Half the angle over which the piston stays within a small distance of the top: what an indicator
/// at the top cannot see. Holds for distances below a hundredth of half the stroke.
double dwell_deg(const CrankGear& gear, double distance_mm);

/// Arc on a rim of that diameter, measured along the rim.
double rim_arc_mm(double diameter_mm, double angle_deg);
double angle_of_arc_deg(double diameter_mm, double arc_mm);

}  // namespace soot::calc
