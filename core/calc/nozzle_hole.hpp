// The hole a quantity of fuel needs.
//
// A = V / (Cd t sqrt(2 dp / density)): Ganesan, Internal Combustion Engines, ch. 9, ex. 9.2 and
// 9.3. Cd of small round holes 0.62 to 0.88: NACA Report 224.
#pragma once

namespace soot::calc {

struct Spray {
  double fuel_ml = 0;
  double time_ms = 0;
  double drop_bar = 0;  ///< mean pressure in front less that behind
  double density_kg_l = 0;
  double coefficient = 0;
};

/// All holes together, mm2.
double hole_area_mm2(const Spray& spray);
/// One of so many.
double hole_diameter_mm(double area_mm2, double count);

}  // namespace soot::calc
