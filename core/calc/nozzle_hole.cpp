#include "core/calc/nozzle_hole.hpp"

#include <cmath>
#include <numbers>

namespace soot::calc {

double hole_area_mm2(const Spray& spray) {
  // mL / ms is 1e6 mm3 / s; sqrt(2 bar / (kg/L)) is sqrt(200) m/s.
  const double mm_s = 1000 * std::sqrt(200 * spray.drop_bar / spray.density_kg_l);
  return spray.fuel_ml / spray.time_ms * 1e6 / (spray.coefficient * mm_s);
}

double hole_diameter_mm(double area_mm2, double count) {
  return std::sqrt(4 * area_mm2 / (std::numbers::pi * count));
}

}  // namespace soot::calc
