// How far a pump cam has lifted at a crank angle: what ties depth, spill and degrees together.
// Angles are crank degrees from firing top centre, negative before it; lift is mm above the base
// circle. Only the rising flank has an inverse.
#pragma once

#include <optional>

namespace soot::calc {

class LiftLaw {
 public:
  virtual ~LiftLaw() = default;

  /// 0 on the base circle, never below; constant past the nose's beginning.
  virtual double lift_mm(double crank_deg) const = 0;
  /// Where the rising flank reaches a lift strictly between 0 and the total; nothing elsewhere.
  virtual std::optional<double> angle_deg(double lift_mm) const = 0;
  /// d(lift)/d(crank angle) on the rising flank at an angle, 0 off it.
  virtual double rate_mm_per_deg(double crank_deg) const = 0;
};

}  // namespace soot::calc
