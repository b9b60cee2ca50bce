// Internal to core/infer. Log density of one block's readings for each joint grade of its own
// causes, as a quadratic in the engine-wide shift. All Gaussian: magnitudes, spreads and
// instruments make one covariance; the whitened residuals of the exact readings are split into the
// part along the shift (a few squares) and a constant, so that nothing is subtracted from anything
// of its own size: log L = c - sum of squares / 2. Bounds enter by their probability given the
// exact readings.
//
// Curves are straight between their points: one set of quadratics a smooth piece.
#pragma once

#include "core/infer/censored.hpp"
#include "core/infer/directions.hpp"
#include "core/infer/or_table.hpp"

#include <cstddef>
#include <memory>
#include <vector>

namespace soot::infer {

/// For one state of covariance and one smooth piece of the shift. Every vector runs over the
/// assignments; u = shift less the piece's origin, along the active directions.
struct Quadratics {
  std::size_t count = 0;
  std::size_t active = 0;
  std::vector<double> constant;            ///< c
  std::vector<std::vector<double>> along;  ///< a_k
  /// r_kj, j >= k, row after row: square k is (a_k - sum_j r_kj u_j)^2
  std::vector<std::vector<double>> rate;
  std::vector<std::vector<double>> reach;  ///< by how much a unit of u_j can move their root

  /// Bounds of censored readings; empty without them.
  struct Bound {
    std::vector<double> mean;   ///< one a bound, at the origin
    std::vector<double> gain;   ///< bound x exact: what a whitened residual tells of a bound
    std::vector<double> white;  ///< one an exact reading, at the origin
    std::vector<double> tilt;   ///< exact x direction: whitened slopes
    std::vector<double> reach;  ///< bound x direction: how far a unit can move the mean
    Censored censored;
  };
  std::vector<Bound> bounds;         ///< one an assignment
  std::vector<double> bound_slopes;  ///< bound x direction
  std::vector<double> lower, upper;  ///< one a bound

  /// out[x] = log L at u plus added[x]; with `half` (one a direction) an upper bound of it within
  /// that reach.
  void values(const double* u, const double* half, const double* added, double* out) const;
  /// out[x][lane] = log L at u[j][lane].
  void rows(const double* u, double* out) const;

 private:
  double log_bounds(std::size_t x, const double* u, const double* half, std::size_t stride) const;
};

class BlockLikelihood {
 public:
  BlockLikelihood(const Network& network, const Instances& instances, const Evidence& evidence,
                  const Directions& directions, const Block& block);

  std::size_t assignments() const { return grades_.total(); }
  bool has_bounds() const { return exact_ < readings_.size(); }
  /// `origin` lies inside the smooth piece.
  Quadratics quadratics(const Shift& origin, const std::vector<std::size_t>& active) const;
  /// Upper bound of any log L, whatever the shift, the scatter and the grades.
  double log_ceiling() const { return log_ceiling_; }

 private:
  using Rows = std::vector<std::vector<double>>;
  struct Work;

  double slope(std::size_t reading, std::size_t term, const Shift& shift) const;
  double common_mean(std::size_t reading, const Shift& shift) const;
  double sound_covariance(std::size_t i, std::size_t j, const Shift& shift,
                          const Rows& slopes) const;
  void add_causes(const Rows& slopes, Rows& mean, Rows& covariance) const;
  void project(Rows& white, std::vector<Rows>& tilt, Quadratics& out) const;
  void add_bounds(const Shift& origin, const Rows& mean, const Rows& covariance, const Rows& factor,
                  const Rows& white, const std::vector<Rows>& tilt,
                  const std::vector<std::size_t>& active, Quadratics& out) const;

  const Network& network_;
  const Instances& instances_;
  const Evidence& evidence_;
  const Directions& directions_;
  const Block& block_;
  Grades grades_;
  std::vector<std::size_t> readings_;  ///< exact ones first
  std::size_t exact_ = 0;
  std::vector<double> own_variance_;  ///< one a bound: of it alone
  double log_ceiling_ = 0;
};

}  // namespace soot::infer
