// A plugin's lift law, asked once and kept as numbers, so that nothing foreign runs while a job is
// worked on and equal questions get equal answers. Between two samples a tenth of a crank degree
// apart the lift is taken as straight: good to 0.0001 mm on the flank and nose of any cam that fits
// an engine, save in the one step where a flank begins with a jerk.
#pragma once

#include "core/base/problem.hpp"
#include "core/calc/lift_law.hpp"

#include <cstddef>
#include <optional>
#include <vector>

namespace soot::host {

class SampledLaw final : public calc::LiftLaw {
 public:
  static constexpr double first_deg = -360;
  static constexpr double last_deg = 120;
  static constexpr std::size_t per_deg = 10;
  static constexpr std::size_t count = 4801;  ///< samples from first_deg to last_deg

  static double sample_deg(std::size_t index) {
    return first_deg + static_cast<double>(index) / static_cast<double>(per_deg);
  }

  /// Takes `count` lifts in mm. Refuses what is not finite or negative, a lift already there at
  /// first_deg, and a rising flank that does not rise all the way to the greatest lift.
  static Result<SampledLaw> from_samples(std::vector<double> lifts_mm);

  double lift_mm(double crank_deg) const override;
  std::optional<double> angle_deg(double lift_mm) const override;
  double rate_mm_per_deg(double crank_deg) const override;

  double total_mm() const { return lifts_mm_[top_]; }

 private:
  SampledLaw(std::vector<double> lifts_mm, std::size_t begin, std::size_t top);

  std::vector<double> lifts_mm_;  ///< level from `top_` on
  std::size_t begin_;             ///< last sample of the base circle
  std::size_t top_;               ///< first sample of the greatest lift
};

}  // namespace soot::host
