#include "core/infer/repeats.hpp"

#include "core/infer/interval.hpp"

#include <algorithm>
#include <cmath>
#include <tuple>

namespace soot::infer {

namespace {

/// `from` to `to`: exact readings of one quantity and cylinder.
Reading merged(const Reading* from, const Reading* to, double& log_constant) {
  if (to - from == 1) return *from;
  double precision = 0, mean = 0;
  for (const Reading* r = from; r != to; ++r) {
    const double own = 1 / (r->sd * r->sd);
    precision += own;
    mean += (r->lower - r->shift - mean) * (own / precision);
  }
  log_constant += log_sqrt_two_pi - 0.5 * std::log(precision);
  for (const Reading* r = from; r != to; ++r) {
    const double off = (r->lower - r->shift - mean) / r->sd;
    log_constant -= 0.5 * off * off + std::log(r->sd) + log_sqrt_two_pi;
  }
  Reading one = *from;
  one.lower = one.upper = mean;
  one.sd = 1 / std::sqrt(precision);
  one.shift = 0;
  return one;
}

}  // namespace

Evidence merge_repeats(const Evidence& evidence, double& log_constant) {
  Evidence result = evidence;
  // One order whatever order the evidence came in: the answer is the same to the last bit.
  std::vector<Reading> sorted = evidence.readings;
  std::stable_sort(sorted.begin(), sorted.end(), [](const Reading& a, const Reading& b) {
    const auto key = [](const Reading& r) {
      return std::tuple(!r.is_exact(), r.quantity, r.cylinder, r.lower, r.upper, r.sd, r.shift);
    };
    return key(a) < key(b);
  });
  result.readings.clear();
  for (std::size_t i = 0; i < sorted.size();) {
    std::size_t end = i + 1;
    while (sorted[i].is_exact() && end < sorted.size() && sorted[end].is_exact() &&
           sorted[end].quantity == sorted[i].quantity && sorted[end].cylinder == sorted[i].cylinder)
      ++end;
    result.readings.push_back(merged(sorted.data() + i, sorted.data() + end, log_constant));
    i = end;
  }
  return result;
}

}  // namespace soot::infer
