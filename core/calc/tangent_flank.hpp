// A cam whose flank is a straight line tangent to the base circle, under a roller: the rate rises
// along the flank, so degrees and lift are not in proportion.
//
// lift = (R_b + r)(1/cos phi - 1), rate = (R_b + r) sin phi / cos^2 phi a radian, phi in cam
// degrees from where the roller leaves the base circle. The centre of a roller on a straight flank
// runs on a line parallel to it, R_b + r from the cam's centre: the secant is the whole derivation
// (standard in textbooks of mechanisms; from memory). The law holds on the flank; from there on the
// lift is taken as the total.
#pragma once

#include "core/calc/lift_law.hpp"

namespace soot::calc {

class TangentFlank : public LiftLaw {
 public:
  struct Shape {
    double base_radius_mm = 0;
    double roller_radius_mm = 0;
    double closing_before_top_deg = 0;  ///< crank degrees before firing top centre
    double closing_lift_mm = 0;
    double total_mm = 0;
    double cam_per_crank = 0.5;  ///< cam degrees a crank degree: 0.5 four-stroke, 1 two-stroke
  };

  explicit TangentFlank(const Shape& shape);

  double lift_mm(double crank_deg) const override;
  std::optional<double> angle_deg(double lift_mm) const override;
  double rate_mm_per_deg(double crank_deg) const override;

 private:
  double flank_angle_rad(double lift_mm) const;
  double cam_angle_rad(double crank_deg) const;

  Shape shape_;
  double radius_mm_;
  double closing_rad_;  ///< on the flank
  double end_rad_;      ///< where the flank has reached the total lift
};

}  // namespace soot::calc
