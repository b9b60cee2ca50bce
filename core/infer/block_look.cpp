#include "core/infer/block_look.hpp"

#include "core/infer/shares.hpp"

#include <algorithm>
#include <numeric>

namespace soot::infer {

namespace {

constexpr std::size_t chunk = Quadratics::chunk;

std::vector<double> in_order(const std::vector<double>& row,
                             const std::vector<std::size_t>& order) {
  std::vector<double> out;
  out.reserve(order.size());
  for (const std::size_t x : order)
    out.push_back(row[x]);
  return out;
}

std::vector<std::vector<double>> in_order(const std::vector<std::vector<double>>& rows,
                                          const std::vector<std::size_t>& order) {
  std::vector<std::vector<double>> out;
  for (const std::vector<double>& row : rows)
    out.push_back(in_order(row, order));
  return out;
}

}  // namespace

BlockLook::BlockLook(const Quadratics& whole, const std::vector<double>& log_prior)
    : whole_(whole), order_(whole.count) {
  std::vector<double> most = whole.constant;
  for (std::size_t x = 0; x < most.size(); ++x)
    most[x] += log_prior[x];
  std::iota(order_.begin(), order_.end(), std::size_t{0});
  std::sort(order_.begin(), order_.end(),
            [&](std::size_t a, std::size_t b) { return most[a] > most[b]; });
  ranked_.count = whole.count;
  ranked_.active = whole.active;
  ranked_.constant = in_order(most, order_);
  ranked_.along = in_order(whole.along, order_);
  ranked_.rate = in_order(whole.rate, order_);
  ranked_.reach = in_order(whole.reach, order_);
  log_rest_.assign(whole.count / chunk + (whole.count % chunk == 0 ? 1 : 2), nothing);
  for (std::size_t c = log_rest_.size() - 1; c-- > 0;) {
    const auto first = ranked_.constant.begin() + static_cast<std::ptrdiff_t>(c * chunk);
    const auto last = ranked_.constant.begin() +
                      static_cast<std::ptrdiff_t>(std::min((c + 1) * chunk, whole.count));
    std::vector<double> logs(first, last);
    log_rest_[c] = log_add(log_rest_[c + 1], log_sum(logs));
  }
}

double BlockLook::log_bound(const double* u, const double* half, double enough,
                            double& steps) const {
  double sum = nothing;
  double logs[chunk];
  const double allowed = half == nullptr ? log_little : log_some;
  for (std::size_t c = 0; c + 1 < log_rest_.size(); ++c) {
    if (log_rest_[c] < sum + allowed) return log_add(sum, log_rest_[c]);
    if (const double most = log_add(sum, log_rest_[c]); most < enough) return most;
    const std::size_t first = c * chunk;
    const std::size_t last = std::min(first + chunk, ranked_.count);
    ranked_.values(u, half, first, last, logs);
    if (!whole_.bounds.empty() && !whole_.is_open()) {
      for (std::size_t x = first; x < last; ++x)
        logs[x - first] += whole_.log_bounds(order_[x], u, half, 1);
      if (half == nullptr) steps += static_cast<double>(last - first) * whole_.bound_steps;
    }
    sum = log_add(sum, log_sum(logs, last - first));
    steps += static_cast<double>(last - first);
  }
  return sum;
}

}  // namespace soot::infer
