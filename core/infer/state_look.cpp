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
    : axes_(active.size()), order_(states.size()) {
  for (std::size_t s = 0; s < states.size(); ++s) {
    double peak = 0;
    for (const std::size_t d : active) {
      mean_.push_back(states[s].mean[d]);
      precision_.push_back(1 / states[s].variance[d]);
      peak -= 0.5 * std::log(states[s].variance[d]) + log_sqrt_two_pi;
    }
    log_peak_.push_back(peak);
    log_most_.push_back(log_prior[s] + peak);
  }
  std::iota(order_.begin(), order_.end(), std::size_t{0});
  std::stable_sort(order_.begin(), order_.end(),
                   [&](std::size_t a, std::size_t b) { return log_most_[a] > log_most_[b]; });
  log_rest_.assign((order_.size() + states_at_once - 1) / states_at_once + 1, nothing);
  std::vector<double> logs;
  for (std::size_t c = log_rest_.size() - 1; c-- > 0;) {
    logs.clear();
    for (std::size_t i = c * states_at_once; i < std::min((c + 1) * states_at_once, order_.size());
         ++i)
      logs.push_back(log_most_[order_[i]]);
    log_rest_[c] = log_add(log_rest_[c + 1], log_sum(logs));
  }
}

double StateLook::log_exponent(std::size_t i, const double* at, const double* half) const {
  double squares = 0;
  for (std::size_t a = 0; a < axes_; ++a) {
    double off = std::abs(at[a] - mean_[i * axes_ + a]);
    if (half != nullptr) off = std::max(0.0, off - half[a]);
    squares += off * off * precision_[i * axes_ + a];
  }
  return -0.5 * squares;
}

double StateLook::log_density(std::size_t i, const double* at) const {
  return log_peak_[i] + log_exponent(i, at, nullptr);
}

double StateLook::log_bound(const double* at, const double* half, double& steps) const {
  double sum = nothing;
  double logs[states_at_once];
  for (std::size_t c = 0; c + 1 < log_rest_.size(); ++c) {
    if (log_rest_[c] < sum + log_little) return log_add(sum, log_rest_[c]);
    const std::size_t first = c * states_at_once;
    const std::size_t last = std::min(first + states_at_once, order_.size());
    for (std::size_t i = first; i < last; ++i)
      logs[i - first] = log_most_[order_[i]] + log_exponent(order_[i], at, half);
    sum = log_add(sum, log_sum(logs, last - first));
    steps += static_cast<double>(last - first);
  }
  return sum;
}

}  // namespace soot::infer
