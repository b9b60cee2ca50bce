// Internal to core/infer. Log density of one block's readings for each joint grade of its own
// causes, as a quadratic in the engine-wide shift: log L = c - sum of squares / 2, so that nothing
// is subtracted from anything of its own size. Bounds enter by their probability given the exact
// readings. Curves are straight between their points: one set of quadratics a smooth piece.
#pragma once

#include "core/infer/censored.hpp"
#include "core/infer/or_table.hpp"

#include <cstddef>
#include <vector>

namespace soot::infer {

/// For one state of covariance and one smooth piece of the shift. Every vector runs over the
/// assignments; u = shift less the piece's origin, along the active directions.
struct Quadratics {
  static constexpr std::size_t chunk = 64;  ///< as many assignments at most in one call of values
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
  double bound_steps = 0;            ///< of integrating them, for each assignment
  std::vector<double> bound_slopes;  ///< bound x direction
  std::vector<double> lower, upper;  ///< one a bound

  /// out[x - first] = log L at u for x from `first` to before `last`, a chunk at
  /// most; with `half` (one a direction)
  /// an upper bound of it within that reach; without the bounds of censored readings.
  void values(const double* u, const double* half, std::size_t first, std::size_t last,
              double* out) const;
  /// out[x][lane] = log L at u[j][lane].
  void rows(const double* u, double* out) const;
  /// Log probability of the bounds under assignment x at u[j * stride]; with `half` an upper bound.
  double log_bounds(std::size_t x, const double* u, const double* half, std::size_t stride) const;
  /// The only bound is that of a reading which may be anything.
  bool is_open() const;
  /// mean[x][lane], sd[x][lane] of that reading at u[j][lane], given the exact ones.
  void predict(const double* u, double* mean, double* sd) const;

 private:
  double bound_mean(std::size_t x, std::size_t b, const double* u, std::size_t stride) const;
};

}  // namespace soot::infer
