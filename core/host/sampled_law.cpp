#include "core/host/sampled_law.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <iterator>
#include <utility>

namespace soot::host {

namespace {
/// Below this a lift counts as none, and a rise as level: what doubles leave of a sum.
constexpr double nothing_mm = 1e-9;
}  // namespace

SampledLaw::SampledLaw(std::vector<double> lifts_mm, std::size_t begin, std::size_t top)
    : lifts_mm_(std::move(lifts_mm)), begin_(begin), top_(top) {}

Result<SampledLaw> SampledLaw::from_samples(std::vector<double> lifts_mm) {
  assert(lifts_mm.size() == count);
  for (std::size_t i = 0; i < lifts_mm.size(); ++i) {
    if (!std::isfinite(lifts_mm[i]))
      return fail(Kind::trouble, "lift at {:.1f} deg is {} (expected a finite number)",
                  sample_deg(i), std::isnan(lifts_mm[i]) ? std::fabs(lifts_mm[i]) : lifts_mm[i]);
    if (lifts_mm[i] < -nothing_mm)
      return fail(Kind::trouble, "lift at {:.1f} deg is {:.3f} mm (expected 0 or more)",
                  sample_deg(i), lifts_mm[i]);
  }
  if (lifts_mm.front() > nothing_mm)
    return fail(Kind::trouble, "lift at {:.1f} deg is {:.3f} mm (expected the base circle)",
                first_deg, lifts_mm.front());
  const double total_mm = *std::max_element(lifts_mm.begin(), lifts_mm.end());
  if (total_mm <= nothing_mm)
    return fail(Kind::trouble, "no lift between {:.0f} and {:.0f} deg (expected a flank)",
                first_deg, last_deg);
  const auto index_of = [&](auto found) {
    return static_cast<std::size_t>(std::distance(lifts_mm.begin(), found));
  };
  const std::size_t top = index_of(std::find_if(lifts_mm.begin(), lifts_mm.end(), [&](double lift) {
    return lift >= total_mm - nothing_mm;
  }));
  const std::size_t begin = index_of(std::find_if(lifts_mm.begin(), lifts_mm.end(),
                                                  [](double lift) { return lift > nothing_mm; })) -
                            1;
  for (std::size_t i = begin + 1; i <= top; ++i)
    if (lifts_mm[i] <= lifts_mm[i - 1])
      return fail(
          Kind::trouble,
          "lift goes from {:.4f} mm at {:.1f} deg to {:.4f} mm at {:.1f} deg (expected it to "
          "rise up to {:.3f} mm)",
          lifts_mm[i - 1], sample_deg(i - 1), lifts_mm[i], sample_deg(i), total_mm);
  std::fill(lifts_mm.begin(), lifts_mm.begin() + static_cast<std::ptrdiff_t>(begin) + 1, 0.0);
  std::fill(lifts_mm.begin() + static_cast<std::ptrdiff_t>(top), lifts_mm.end(), total_mm);
  return SampledLaw(std::move(lifts_mm), begin, top);
}

double SampledLaw::lift_mm(double crank_deg) const {
  if (crank_deg <= first_deg) return 0;
  if (crank_deg >= last_deg) return total_mm();
  const double at = (crank_deg - first_deg) * static_cast<double>(per_deg);
  const std::size_t left = std::min(static_cast<std::size_t>(at), count - 2);
  const double share = at - static_cast<double>(left);
  return lifts_mm_[left] + share * (lifts_mm_[left + 1] - lifts_mm_[left]);
}

std::optional<double> SampledLaw::angle_deg(double lift_mm) const {
  if (!(lift_mm > 0 && lift_mm < total_mm())) return std::nullopt;
  const auto flank = lifts_mm_.begin() + static_cast<std::ptrdiff_t>(begin_);
  const auto end = lifts_mm_.begin() + static_cast<std::ptrdiff_t>(top_) + 1;
  const auto right = std::upper_bound(flank, end, lift_mm);
  const auto left = std::prev(right);
  const double share = (lift_mm - *left) / (*right - *left);
  return sample_deg(static_cast<std::size_t>(std::distance(lifts_mm_.begin(), left))) +
         share / static_cast<double>(per_deg);
}

double SampledLaw::rate_mm_per_deg(double crank_deg) const {
  const double begin_deg = sample_deg(begin_);
  const double top_deg = sample_deg(top_);
  if (!(crank_deg > begin_deg && crank_deg < top_deg)) return 0;
  const double step_deg = 1.0 / static_cast<double>(per_deg);
  const double left_deg = std::max(crank_deg - step_deg, begin_deg);
  const double right_deg = std::min(crank_deg + step_deg, top_deg);
  return (lift_mm(right_deg) - lift_mm(left_deg)) / (right_deg - left_deg);
}

}  // namespace soot::host
