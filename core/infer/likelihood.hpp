// Internal to core/infer. Log density of one block's readings for each joint grade of its own
// causes, given the engine-wide state at one node. All Gaussian: magnitudes, spreads and
// instruments make one covariance; exact readings enter by its Cholesky factor, bounds by their
// probability given the exact ones. Factors are kept while only the common shift changes.
#pragma once

#include "core/infer/censored.hpp"
#include "core/infer/directions.hpp"

#include <cstddef>
#include <map>
#include <optional>
#include <vector>

namespace soot::infer {

class BlockLikelihood {
 public:
  BlockLikelihood(const Network& network, const Instances& instances, const Evidence& evidence,
                  const Directions& directions, const Block& block);

  std::size_t assignments() const { return grades_.total(); }
  /// out[x]: log density (times probability of the bounds) of assignment x.
  void log_density(const Shift& shift, std::vector<double>& out) { log_bound(shift, {}, out); }
  /// out[x]: an upper bound of it while each direction keeps within `half` (one a direction) of the
  /// shift. Rigorous where the covariance does not depend on the shift.
  void log_bound(const Shift& shift, const std::vector<double>& half, std::vector<double>& out);
  /// out[x]: an upper bound of it for any shift that has this covariance.
  void log_ceiling(const Shift& shift, std::vector<double>& out);
  /// Greatest number of shared numbers that some bounds are integrated over.
  std::size_t censored_depth() const { return censored_depth_; }

 private:
  /// What one assignment adds to the bounds.
  struct Bounds {
    std::vector<double> mean;  ///< one a bound, own causes' part
    std::vector<double> gain;  ///< bound x exact: what a whitened residual tells of a bound
    Censored censored;
    std::vector<double> reach;  ///< bound x direction: how far a unit of it can move the mean
  };

  struct Factors {
    /// Rows of one number an assignment: the log norm; for each exact reading its row of the
    /// inverse Cholesky factor and what the assignment's own mean makes of it; for each direction
    /// how far a unit of it can move the whitened residuals.
    std::vector<double> rows;
    std::vector<Bounds> bounds;  ///< one an assignment; empty without bounds
  };

  double slope(std::size_t reading, std::size_t term, const Shift& shift) const;
  double common_mean(std::size_t reading, const Shift& shift) const;
  void rebuild(const Shift& shift);
  void add_bounds(std::vector<double>& out, const std::vector<double>& half) const;
  double* coefficient(std::size_t which) { return factors_->rows.data() + which * grades_.total(); }
  Eigen::MatrixXd steepest_slopes() const;
  Eigen::VectorXd straight_slopes(Eigen::Index direction) const;
  void add_factor(std::size_t assignment, const Eigen::MatrixXd& sound);
  Eigen::MatrixXd sound_covariance(const Shift& shift) const;

  const Network& network_;
  const Instances& instances_;
  const Evidence& evidence_;
  const Directions& directions_;
  const Block& block_;
  Grades grades_;
  std::vector<std::size_t> readings_;  ///< exact ones first
  std::size_t exact_ = 0;
  std::vector<double> own_variance_;         ///< one a bound: of it alone
  std::vector<bool> matters_;                ///< one a term: own effects or scatter pass through it
  std::vector<std::vector<double>> slopes_;  ///< one row a reading, one entry a term
  /// By the slopes that matter, variances and scatters they were made for.
  std::map<std::vector<double>, Factors> known_;
  Factors* factors_ = nullptr;  ///< those of the last shift
  std::vector<double> off_;     ///< one a reading: value (of a bound 0) less the common mean
  std::vector<double> white_;   ///< exact x assignment: whitened residuals
  std::vector<double> sum_;
  std::size_t censored_depth_ = 0;
};

}  // namespace soot::infer
