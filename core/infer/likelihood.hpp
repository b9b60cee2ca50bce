// Internal to core/infer. Makes the quadratics of one block: magnitudes, spreads and instruments
// make one covariance; the whitened residuals of the exact readings are split into the part along
// the engine-wide shift and the rest. All assignments at once, row by row.
#pragma once

#include "core/infer/directions.hpp"
#include "core/infer/quadratics.hpp"

#include <cstddef>
#include <memory>
#include <vector>

namespace soot::infer {

class BlockLikelihood {
 public:
  BlockLikelihood(const Network& network, const Instances& instances, const Evidence& evidence,
                  const Directions& directions, const Block& block);

  std::size_t assignments() const { return all_.size(); }
  bool has_bounds() const { return exact_ < readings_.size(); }
  /// Elementary steps of integrating the bounds, for each assignment and node.
  double bound_steps() const;
  /// `origin` lies inside the smooth piece. Of all assignments, or of some in this order.
  Quadratics quadratics(const Shift& origin, const std::vector<std::size_t>& active) {
    return quadratics(origin, active, all_);
  }
  Quadratics quadratics(const Shift& origin, const std::vector<std::size_t>& active,
                        const std::vector<std::size_t>& which);
  /// Upper bound of any log L, whatever the shift, the scatter and the grades.
  double log_ceiling() const { return log_ceiling_; }

 private:
  using Rows = std::vector<std::vector<double>>;
  struct Work;

  double slope(std::size_t reading, std::size_t term, const Shift& shift) const;
  double common_mean(std::size_t reading, const Shift& shift) const;
  double sound_covariance(std::size_t i, std::size_t j, const Shift& shift,
                          const Rows& slopes) const;
  /// What the own causes add to means and covariances, of all assignments.
  struct Own {
    Rows slopes, mean, covariance;
  };
  Own own_at(Rows slopes) const;
  void project(Rows& white, std::vector<Rows>& tilt, Quadratics& out) const;
  void add_bounds(const Shift& origin, const Rows& mean, const Rows& covariance, const Rows& factor,
                  const Rows& white, const std::vector<Rows>& tilt,
                  const std::vector<std::size_t>& active, Quadratics& out) const;

  const Network& network_;
  const Instances& instances_;
  const Evidence& evidence_;
  const Directions& directions_;
  const Block& block_;
  std::vector<std::size_t> all_;  ///< assignments
  /// Made last: it changes only from one bend of a curve to another. Copies share it.
  std::shared_ptr<const Own> own_;
  std::vector<std::size_t> readings_;  ///< exact ones first
  std::size_t exact_ = 0;
  std::vector<double> own_variance_;  ///< one a bound: of it alone
  double log_ceiling_ = 0;
};

}  // namespace soot::infer
