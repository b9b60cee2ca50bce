#include "core/infer/censored.hpp"

#include "core/infer/interval.hpp"

#include <Eigen/Eigenvalues>

#include <algorithm>
#include <cmath>
#include <map>

namespace soot::infer {

namespace {
/// Terms of a sum below this part of the greatest (natural log) cannot change it.
const double negligible = -44;

/// As much of each variance as keeps the rest a covariance is made the number's own: what n numbers
/// share is then at most n - 1 dimensions wide, of two numbers one.
Eigen::MatrixXd leave_own(const Eigen::MatrixXd& shared, std::vector<double>& own_sd) {
  const Eigen::Index n = shared.rows();
  Eigen::MatrixXd correlation(n, n);
  for (Eigen::Index r = 0; r < n; ++r)
    for (Eigen::Index c = 0; c < n; ++c) {
      const double variances = shared(r, r) * shared(c, c);
      if (!(variances > 0)) return shared;
      correlation(r, c) = shared(r, c) / std::sqrt(variances);
    }
  const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> solver(correlation, Eigen::EigenvaluesOnly);
  // A little less, so that rounding leaves no negative variance.
  const double own = std::max(0.0, solver.eigenvalues()(0) - 1e-15);
  Eigen::MatrixXd left = shared;
  for (Eigen::Index r = 0; r < n; ++r) {
    double& of_r = own_sd[static_cast<std::size_t>(r)];
    of_r = std::hypot(of_r, std::sqrt(own * shared(r, r)));
    left(r, r) -= own * shared(r, r);
  }
  return left;
}

}  // namespace

Censored::Censored(const Eigen::MatrixXd& shared_covariance,
                   const std::vector<double>& own_variance) {
  for (const double variance : own_variance)
    own_sd_.push_back(std::sqrt(variance));
  if (own_variance.size() == 1) {  // one bound shares with nobody
    own_sd_[0] = std::sqrt(own_variance[0] + std::max(0.0, shared_covariance(0, 0)));
    sd_ = own_sd_;
    return;
  }
  const Eigen::MatrixXd left = leave_own(shared_covariance, own_sd_);
  const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> solver(left);
  const double least = 1e-13 * *std::min_element(own_variance.begin(), own_variance.end());
  for (Eigen::Index j = 0; j < solver.eigenvalues().size(); ++j) {
    const double value = solver.eigenvalues()(j);
    if (value <= std::max(least, 1e-15 * solver.eigenvalues().maxCoeff())) continue;
    std::vector<double> load;
    double precision = 1;
    for (std::size_t r = 0; r < own_variance.size(); ++r) {
      load.push_back(std::sqrt(value) * solver.eigenvectors()(static_cast<Eigen::Index>(r), j));
      precision += load.back() * load.back() / (own_sd_[r] * own_sd_[r]);
    }
    load_.push_back(std::move(load));
    steps_.push_back(0.8 / std::sqrt(precision));
  }
  sd_ = own_sd_;
  for (const std::vector<double>& load : load_)
    for (std::size_t r = 0; r < sd_.size(); ++r)
      sd_[r] = std::hypot(sd_[r], load[r]);
}

double Censored::integrate(std::size_t depth, const std::vector<double>& lower,
                           const std::vector<double>& upper) const {
  if (depth == load_.size()) {
    double sum = 0;
    for (std::size_t r = 0; r < lower.size(); ++r)
      sum += log_interval(lower[r] / own_sd_[r], upper[r] / own_sd_[r]);
    return sum;
  }
  const double step = steps_[depth];
  std::map<long, double> seen;
  const auto term = [&](long k) {
    if (const auto known = seen.find(k); known != seen.end()) return known->second;
    const double z = step * static_cast<double>(k);
    std::vector<double> below = lower;
    std::vector<double> above = upper;
    for (std::size_t r = 0; r < lower.size(); ++r) {
      below[r] -= load_[depth][r] * z;
      above[r] -= load_[depth][r] * z;
    }
    return seen[k] = integrate(depth + 1, below, above) - 0.5 * z * z - log_sqrt_two_pi;
  };
  long top = 0;
  for (long stride = 64; stride > 0; stride /= 2)
    for (const long direction : {stride, -stride})
      while (term(top + direction) > term(top))
        top += direction;
  const double greatest = term(top);
  double sum = 1;
  for (const long direction : {1L, -1L})
    for (long k = top + direction; term(k) > greatest + negligible; k += direction)
      sum += std::exp(term(k) - greatest);
  return greatest + std::log(sum * step);
}

double Censored::log_probability(const std::vector<double>& lower,
                                 const std::vector<double>& upper) const {
  return integrate(0, lower, upper);
}

double Censored::log_ceiling(const std::vector<double>& lower,
                             const std::vector<double>& upper) const {
  double least = 0;
  for (std::size_t r = 0; r < lower.size(); ++r)
    least = std::min(least, log_interval(lower[r] / sd_[r], upper[r] / sd_[r]));
  return least;
}

}  // namespace soot::infer
