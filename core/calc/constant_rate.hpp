// A flank that lifts by the same amount every degree: the law of a family that gives one lift rate
// and no more, and of cams ground to constant velocity.
//
// lift = closing lift + rate x (degrees since port closing), held between 0 and the total lift.
// Source: elementary; it is the definition of a constant-velocity cam.
#pragma once

#include "core/calc/lift_law.hpp"

namespace soot::calc {

class ConstantRate : public LiftLaw {
 public:
  struct Shape {
    double rate_mm_per_deg = 0;         ///< per crank degree, > 0
    double closing_before_top_deg = 0;  ///< crank degrees before firing top centre
    double closing_lift_mm = 0;         ///< at port closing, between 0 and the total
    double total_mm = 0;
  };

  explicit ConstantRate(const Shape& shape) : shape_(shape) {}

  double lift_mm(double crank_deg) const override;
  std::optional<double> angle_deg(double lift_mm) const override;
  double rate_mm_per_deg(double crank_deg) const override;

 private:
  double on_line_mm(double crank_deg) const;

  Shape shape_;
};

}  // namespace soot::calc
