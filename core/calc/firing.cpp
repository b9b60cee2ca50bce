#include "core/calc/firing.hpp"

#include "core/calc/train.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace soot::calc {
namespace {

bool is_permutation_of_cylinders(const Family& family) {
  std::vector<int> sorted = family.firing_order;
  std::sort(sorted.begin(), sorted.end());
  std::vector<int> expected(static_cast<std::size_t>(std::max(0, family.cylinders)));
  std::iota(expected.begin(), expected.end(), 1);
  return !sorted.empty() && sorted == expected;
}

bool is_whole_turns(double angle_deg) {
  constexpr double slip_deg = 1e-6;
  return std::fabs(std::remainder(angle_deg, 360.0)) < slip_deg;
}

}  // namespace

Result<std::vector<Setting>> setting_order(const Family& family) {
  if (!is_permutation_of_cylinders(family))
    return fail(Kind::data, "firing order {} of family {} (expected each of 1 to {} once)",
                fmt::join(family.firing_order, "-"), family.id, family.cylinders);
  const double interval_deg = firing_interval_deg(family.strokes, family.cylinders);
  std::vector<Setting> settings;
  for (const int cylinder : family.firing_order) {
    const double crank_deg = interval_deg * static_cast<double>(settings.size());
    settings.push_back({cylinder, crank_deg, crank_deg * pump_turns_per_crank(family.strokes), {}});
  }
  for (Setting& setting : settings)
    for (const Setting& other : settings)
      if (other.cylinder != setting.cylinder && is_whole_turns(other.crank_deg - setting.crank_deg))
        setting.same_mark.push_back(other.cylinder);
  return settings;
}

}  // namespace soot::calc
