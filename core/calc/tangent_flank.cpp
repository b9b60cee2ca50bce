#include "core/calc/tangent_flank.hpp"

#include "core/calc/angle.hpp"

#include <cmath>

namespace soot::calc {

TangentFlank::TangentFlank(const Shape& shape)
    : shape_(shape),
      radius_mm_(shape.base_radius_mm + shape.roller_radius_mm),
      closing_rad_(flank_angle_rad(shape.closing_lift_mm)),
      end_rad_(flank_angle_rad(shape.total_mm)) {}

// cos phi = 1/(1 + h/R), written by the half angle because the cosine is blind near the base
// circle.
double TangentFlank::flank_angle_rad(double lift_mm) const {
  const double share = lift_mm / radius_mm_;
  return 2 * std::atan(std::sqrt(share / (2 + share)));
}

double TangentFlank::cam_angle_rad(double crank_deg) const {
  const double since_closing_deg = crank_deg + shape_.closing_before_top_deg;
  return closing_rad_ + shape_.cam_per_crank * since_closing_deg * rad_per_deg;
}

double TangentFlank::lift_mm(double crank_deg) const {
  const double cam_rad = cam_angle_rad(crank_deg);
  if (cam_rad <= 0) return 0;
  if (cam_rad >= end_rad_) return shape_.total_mm;
  return radius_mm_ * (1 / std::cos(cam_rad) - 1);
}

std::optional<double> TangentFlank::angle_deg(double lift_mm) const {
  if (!(lift_mm > 0 && lift_mm < shape_.total_mm)) return std::nullopt;
  const double cam_rad = flank_angle_rad(lift_mm) - closing_rad_;
  return cam_rad / rad_per_deg / shape_.cam_per_crank - shape_.closing_before_top_deg;
}

double TangentFlank::rate_mm_per_deg(double crank_deg) const {
  const double cam_rad = cam_angle_rad(crank_deg);
  if (cam_rad <= 0 || cam_rad >= end_rad_) return 0;
  const double cosine = std::cos(cam_rad);
  return radius_mm_ * std::sin(cam_rad) / (cosine * cosine) * rad_per_deg * shape_.cam_per_crank;
}

}  // namespace soot::calc
