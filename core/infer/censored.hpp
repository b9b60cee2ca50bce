// Internal to core/infer. Probability that several correlated normal numbers each lie within
// bounds: readings beyond an instrument's range, of one block, given its exact readings.
#pragma once

#include <Eigen/Core>

#include <vector>

namespace soot::infer {

/// Numbers y_r = mean_r + sum_j load(r, j) z_j + own_r e_r, with z and e independent standard
/// normal.
class Censored {
 public:
  /// `own_variance` is the part of the covariance that no other number shares (> 0).
  Censored(const Eigen::MatrixXd& shared_covariance, const std::vector<double>& own_variance);

  /// log P(lower <= y - mean <= upper). Numbers that share nothing: a product. Else the shared z
  /// are integrated one inside the other by the trapezoid rule, step 0.8 tau with tau as if every
  /// bound were an exact reading. The integrand is log-concave in each z: climb to its top on the
  /// lattice, then add both flanks until they no longer count, however far out the bounds lie.
  double log_probability(const std::vector<double>& lower, const std::vector<double>& upper) const;
  /// Upper bound of it: of the number that is hardest to have alone.
  double log_ceiling(const std::vector<double>& lower, const std::vector<double>& upper) const;

  /// Of number r alone; a single number shares nothing, so that this is all of it.
  double own_sd(std::size_t r) const { return own_sd_[r]; }

 private:
  double integrate(std::size_t depth, const std::vector<double>& lower,
                   const std::vector<double>& upper) const;

  std::vector<double> own_sd_;
  std::vector<double> sd_;                 ///< with what is shared
  std::vector<std::vector<double>> load_;  ///< one row a shared number, one entry a reading
  std::vector<double> steps_;
};

}  // namespace soot::infer
