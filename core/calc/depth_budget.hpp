// What a reading of timing is worth beyond the gauge's own: the seat, and above all how well the
// crank was placed and the mark is known. The sums state it, and the network of causes reads by it:
// what each cylinder has anew adds to what sound cylinders differ by.
//
// The default sizes are those of an ordinary depth micrometer (0.001 in) in a home shop: trade
// practice, no published source. Combination: JCGM 100:2008.
#pragma once

#include "core/calc/uncertainty.hpp"

#include <optional>
#include <span>
#include <string_view>
#include <vector>

namespace soot::calc {

/// The component that coming up to the mark anew draws anew.
inline constexpr std::string_view placing_the_crank = "placing the crank";

struct DepthBudget {
  double gauge_half_mm = 0.0254;     ///< accuracy of the micrometer
  double repeat_mm = 0.0203;         ///< scatter of one reading, while fewer than five are there
  double seat_half_mm = 0.0127;      ///< how the base sits on the face
  double jam_half_mm = 0.0127;       ///< how the rise differs from one locking to the next
  double placing_half_deg = 0.5;     ///< crank set to the mark
  double mark_deg = 0.15;            ///< standard uncertainty of top centre
  std::optional<double> reading_mm;  ///< of one reading, in place of gauge and scatter
};

/// What taking a reading adds to the gauge's own uncertainty, in the unit of the quantity, by its
/// rule of geometry.hpp. A spill angle has the placing of the crank in its own figure; what is not
/// read against the crank has nothing here.
std::vector<Component> handling_components(std::string_view geometry, const DepthBudget& budget,
                                           double rate_at_top);

/// Components of the mean of these readings, mm; `rate_at_top` (mm a crank degree) carries the
/// angles, which are left out where it is 0.
std::vector<Component> depth_components(const DepthBudget& budget, std::span<const double> readings,
                                        double rate_at_top);

}  // namespace soot::calc
