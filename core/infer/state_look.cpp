#include "core/infer/state_look.hpp"

#include "core/infer/interval.hpp"
#include "core/infer/shares.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace soot::infer {

namespace {
constexpr std::size_t states_at_once = 16;
}  // namespace

StateLook::StateLook(const std::vector<CommonState>& states, const std::vector<double>& log_prior,
                     const std::vector<std::size_t>& active)
    : axes_(active.size()), rank_(states.size()) {
  std::vector<double> peak(states.size(), 0.0);
  for (std::size_t s = 0; s < states.size(); ++s)
    for (const std::size_t d : active)
      peak[s] -= 0.5 * std::log(states[s].variance[d]) + log_sqrt_two_pi;
  std::vector<std::size_t> order(states.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return log_prior[a] + peak[a] > log_prior[b] + peak[b];
  });
  for (std::size_t r = 0; r < order.size(); ++r) {
    const std::size_t s = order[r];
    rank_[s] = r;
    for (const std::size_t d : active) {
      mean_.push_back(states[s].mean[d]);
      precision_.push_back(1 / states[s].variance[d]);
    }
    log_peak_.push_back(peak[s]);
    log_most_.push_back(log_prior[s] + peak[s]);
  }
  log_rest_.assign((order.size() + states_at_once - 1) / states_at_once + 1, nothing);
  for (std::size_t c = log_rest_.size() - 1; c-- > 0;) {
    const std::size_t first = c * states_at_once;
    const std::size_t last = std::min(first + states_at_once, log_most_.size());
    std::vector<double> logs(log_most_.data() + first, log_most_.data() + last);
    log_rest_[c] = log_add(log_rest_[c + 1], log_sum(logs));
  }
}

double StateLook::log_exponent(std::size_t r, const double* at, const double* half) const {
  const double* mean = mean_.data() + r * axes_;
  const double* precision = precision_.data() + r * axes_;
  double squares = 0;
  for (std::size_t a = 0; a < axes_; ++a) {
    double off = std::abs(at[a] - mean[a]);
    if (half != nullptr) off = std::max(0.0, off - half[a]);
    squares += off * off * precision[a];
  }
  return -0.5 * squares;
}

double StateLook::log_density(std::size_t i, const double* at) const {
  return log_peak_[rank_[i]] + log_exponent(rank_[i], at, nullptr);
}

double StateLook::log_bound(const double* at, const double* half, double enough,
                            double& steps) const {
  double sum = nothing;
  double logs[states_at_once];
  const double allowed = half == nullptr ? log_little : log_some;
  for (std::size_t c = 0; c + 1 < log_rest_.size(); ++c) {
    if (log_rest_[c] < sum + allowed) return log_add(sum, log_rest_[c]);
    if (const double most = log_add(sum, log_rest_[c]); most < enough) return most;
    const std::size_t first = c * states_at_once;
    const std::size_t last = std::min(first + states_at_once, log_most_.size());
    for (std::size_t r = first; r < last; ++r)
      logs[r - first] = log_most_[r] + log_exponent(r, at, half);
    sum = log_add(sum, log_sum(logs, last - first));
    steps += static_cast<double>(last - first);
  }
  return sum;
}

}  // namespace soot::infer
