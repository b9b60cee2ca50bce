// What slips past a plunger.
//
// Q = pi d c^3 dp / (12 mu L) (1 + 1.5 e^2), laminar flow through a ring gap: Rabie, Fluid Power
// Engineering, eq. 2.19; up to 2.5 times as much with the plunger on one side. Worked example: Fox
// and McDonald, Introduction to Fluid Mechanics, ex. 8.1.
#pragma once

namespace soot::calc {

struct PlungerGap {
  double diameter_mm = 0;
  double radial_mm = 0;     ///< clearance on the radius
  double length_mm = 0;     ///< that seals
  double eccentricity = 0;  ///< 0 in the middle, 1 on one side
};

/// mm3 a second.
double gap_leak_mm3_s(const PlungerGap& gap, double pressure_bar, double viscosity_mpa_s);

}  // namespace soot::calc
