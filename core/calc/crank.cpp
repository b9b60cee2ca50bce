#include "core/calc/crank.hpp"

#include "core/calc/angle.hpp"

#include <cmath>
#include <numbers>

namespace soot::calc {

double piston_drop_mm(const CrankGear& gear, double from_top_deg) {
  const double throw_mm = gear.stroke_mm / 2;
  const double angle_rad = from_top_deg * rad_per_deg;
  const double across_mm = throw_mm * std::sin(angle_rad);
  return throw_mm + gear.rod_mm - throw_mm * std::cos(angle_rad) -
         std::sqrt(gear.rod_mm * gear.rod_mm - across_mm * across_mm);
}

double piston_slope_mm_per_deg(const CrankGear& gear, double from_top_deg) {
  const double throw_mm = gear.stroke_mm / 2;
  const double angle_rad = from_top_deg * rad_per_deg;
  const double across_mm = throw_mm * std::sin(angle_rad);
  const double rod_height_mm = std::sqrt(gear.rod_mm * gear.rod_mm - across_mm * across_mm);
  return across_mm * (1 + throw_mm * std::cos(angle_rad) / rod_height_mm) * rad_per_deg;
}

std::optional<double> angle_of_drop_deg(const CrankGear& gear, double drop_mm) {
  if (!(drop_mm >= 0 && drop_mm <= gear.stroke_mm)) return std::nullopt;
  const double throw_mm = gear.stroke_mm / 2;
  const double pin_mm = throw_mm + gear.rod_mm - drop_mm;  // gudgeon pin to crank centre
  const double cosine =
      (throw_mm * throw_mm + pin_mm * pin_mm - gear.rod_mm * gear.rod_mm) / (2 * throw_mm * pin_mm);
  return std::acos(std::fmax(-1.0, std::fmin(1.0, cosine))) / rad_per_deg;
}

double dwell_deg(const CrankGear& gear, double distance_mm) {
  const double throw_mm = gear.stroke_mm / 2;
  return std::sqrt(2 * distance_mm / (throw_mm * (1 + throw_mm / gear.rod_mm))) / rad_per_deg;
}

double rim_arc_mm(double diameter_mm, double angle_deg) {
  return std::numbers::pi * diameter_mm * angle_deg / 360;
}

double angle_of_arc_deg(double diameter_mm, double arc_mm) {
  return 360 * arc_mm / (std::numbers::pi * diameter_mm);
}

}  // namespace soot::calc
