#include "core/calc/eccentric.hpp"

#include "core/calc/angle.hpp"

#include <cmath>
#include <numbers>

namespace soot::calc {

Eccentric::Eccentric(const Shape& shape)
    : shape_(shape), closing_rad_(turned_rad(shape.closing_lift_mm)) {}

// cos phi = 1 - h/e, written by the half angle because the cosine is blind near the lowest point.
double Eccentric::turned_rad(double lift_mm) const {
  return 2 * std::asin(std::sqrt(lift_mm / (2 * shape_.eccentricity_mm)));
}

double Eccentric::cam_angle_rad(double crank_deg) const {
  const double since_closing_deg = crank_deg + shape_.closing_before_top_deg;
  return closing_rad_ + shape_.cam_per_crank * since_closing_deg * rad_per_deg;
}

double Eccentric::lift_mm(double crank_deg) const {
  const double cam_rad = cam_angle_rad(crank_deg);
  if (cam_rad <= 0) return 0;
  if (cam_rad >= std::numbers::pi) return 2 * shape_.eccentricity_mm;
  return shape_.eccentricity_mm * (1 - std::cos(cam_rad));
}

std::optional<double> Eccentric::angle_deg(double lift_mm) const {
  if (!(lift_mm > 0 && lift_mm < 2 * shape_.eccentricity_mm)) return std::nullopt;
  const double cam_rad = turned_rad(lift_mm) - closing_rad_;
  return cam_rad / rad_per_deg / shape_.cam_per_crank - shape_.closing_before_top_deg;
}

double Eccentric::rate_mm_per_deg(double crank_deg) const {
  const double cam_rad = cam_angle_rad(crank_deg);
  if (cam_rad <= 0 || cam_rad >= std::numbers::pi) return 0;
  return shape_.eccentricity_mm * std::sin(cam_rad) * rad_per_deg * shape_.cam_per_crank;
}

}  // namespace soot::calc
