// A pump driven by an eccentric: it has no base circle, only a lowest point, from which lift is
// counted; it reaches twice the eccentricity half a cam turn later.
//
// lift = e (1 - cos phi), rate = e sin phi a radian, phi in cam degrees from the lowest point.
// Exact under a flat follower, near enough under a roller that is large beside the eccentricity
// (standard in textbooks of mechanisms; from memory).
#pragma once

#include "core/calc/lift_law.hpp"

namespace soot::calc {

class Eccentric : public LiftLaw {
 public:
  struct Shape {
    double eccentricity_mm = 0;
    double closing_before_top_deg = 0;  ///< crank degrees before firing top centre
    double closing_lift_mm = 0;         ///< above the lowest point, below twice the eccentricity
    double cam_per_crank = 0.5;         ///< cam degrees a crank degree
  };

  explicit Eccentric(const Shape& shape);

  double lift_mm(double crank_deg) const override;
  std::optional<double> angle_deg(double lift_mm) const override;
  double rate_mm_per_deg(double crank_deg) const override;

 private:
  double turned_rad(double lift_mm) const;
  double cam_angle_rad(double crank_deg) const;

  Shape shape_;
  double closing_rad_;
};

}  // namespace soot::calc
