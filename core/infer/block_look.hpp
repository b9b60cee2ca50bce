// Internal to core/infer. What a block says at one shift, looked at only as far as it can matter:
// its assignments in falling order of the most they can ever add.
#pragma once

#include "core/infer/quadratics.hpp"

#include <cstddef>
#include <vector>

namespace soot::infer {

class BlockLook {
 public:
  /// `whole` must outlive the look. `log_prior`: one an assignment.
  BlockLook(const Quadratics& whole, const std::vector<double>& log_prior);

  /// Upper bound of the log of the sum of prior times likelihood: at u by a fiftieth too much at
  /// most; with `half`, of the greatest within that reach, by half too much at most of what each
  /// has at its best there. Where it is below `enough`, any upper bound below that will do.
  /// `steps`: assignments looked at are added.
  double log_bound(const double* u, const double* half, double enough, double& steps) const;

 private:
  const Quadratics& whole_;
  std::vector<std::size_t> order_;
  Quadratics ranked_;             ///< in that order, the prior within the constant, without bounds
  std::vector<double> log_rest_;  ///< one a chunk and one more: what it and the later ones can add
};

}  // namespace soot::infer
