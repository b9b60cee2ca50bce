#include "core/calc/depth_budget.hpp"

#include <cmath>

namespace soot::calc {
namespace {

// Below this many readings their own scatter says little of the gauge's.
constexpr std::size_t enough_repeats = 5;

}  // namespace

std::vector<Component> handling_components(std::string_view geometry, const DepthBudget& budget,
                                           double rate_at_top) {
  const Component seat{"seat", rectangular(budget.seat_half_mm), Shared::cylinder};
  if (geometry == "base-depth") return {seat};
  if (geometry == "spill") return {{"top-centre mark", budget.mark_deg, Shared::engine}};
  if (geometry != "depth") return {};
  if (!(rate_at_top > 0)) return {seat};
  return {seat,
          {std::string{placing_the_crank}, rectangular(budget.placing_half_deg) * rate_at_top,
           Shared::cylinder},
          {"top-centre mark", budget.mark_deg * rate_at_top, Shared::engine}};
}

std::vector<Component> depth_components(const DepthBudget& budget, std::span<const double> readings,
                                        double rate_at_top) {
  std::vector<Component> components;
  const double root = std::sqrt(static_cast<double>(readings.size()));
  if (budget.reading_mm) {
    components.push_back({"gauge", *budget.reading_mm / root});
  } else {
    components.push_back({"gauge", rectangular(budget.gauge_half_mm), Shared::engine});
    const bool own = readings.size() >= enough_repeats;
    components.push_back({"repeats", own ? repeats(readings).of_mean : budget.repeat_mm / root});
  }
  const std::vector<Component> handling = handling_components("depth", budget, rate_at_top);
  components.insert(components.end(), handling.begin(), handling.end());
  components.push_back({"jam nut", rectangular(budget.jam_half_mm), Shared::cylinder});
  return components;
}

}  // namespace soot::calc
