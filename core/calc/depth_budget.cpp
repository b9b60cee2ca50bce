#include "core/calc/depth_budget.hpp"

#include <cmath>

namespace soot::calc {
namespace {

// Below this many readings their own scatter says little of the gauge's.
constexpr std::size_t enough_repeats = 5;

}  // namespace

std::vector<Component> depth_components(const DepthBudget& budget, std::span<const double> readings,
                                        double rate_at_top) {
  std::vector<Component> components;
  const double root = std::sqrt(static_cast<double>(readings.size()));
  if (budget.reading_mm) {
    components.push_back({"gauge", *budget.reading_mm / root});
  } else {
    components.push_back({"gauge", rectangular(budget.gauge_half_mm)});
    const bool own = readings.size() >= enough_repeats;
    components.push_back({"repeats", own ? repeats(readings).of_mean : budget.repeat_mm / root});
  }
  components.push_back({"seat", rectangular(budget.seat_half_mm)});
  components.push_back({"jam nut", rectangular(budget.jam_half_mm)});
  if (rate_at_top > 0) {
    components.push_back({"placing the crank", rectangular(budget.placing_half_deg) * rate_at_top});
    components.push_back({"top-centre mark", budget.mark_deg * rate_at_top});
  }
  return components;
}

}  // namespace soot::calc
