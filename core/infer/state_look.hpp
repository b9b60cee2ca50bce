// Internal to core/infer. The engine-wide states of one regime at one node of its grid, looked at
// only as far as it can matter: in falling order of the most they can ever have.
#pragma once

#include "core/infer/commons.hpp"

#include <cstddef>
#include <vector>

namespace soot::infer {

class StateLook {
 public:
  /// `active`: the directions with an axis, in which every state has a variance. `log_prior`: one a
  /// state.
  StateLook(const std::vector<CommonState>& states, const std::vector<double>& log_prior,
            const std::vector<std::size_t>& active);

  /// Upper bound of the log of the sum of prior times density: at a node by a fiftieth too much at
  /// most; with `half`, of the greatest within that reach, by half too much at most of what each
  /// has at its best there. Where it is below `enough`, any upper bound below that will do.
  /// `steps`: states looked at are added.
  double log_bound(const double* at, const double* half, double enough, double& steps) const;
  /// Log density of the i-th of the states at a node.
  double log_density(std::size_t i, const double* at) const;

 private:
  double log_exponent(std::size_t r, const double* at, const double* half) const;

  std::size_t axes_;
  std::vector<std::size_t> rank_;         ///< of each state; all below runs in falling order
  std::vector<double> mean_, precision_;  ///< [rank][axis]
  std::vector<double> log_peak_;          ///< density at the mean
  std::vector<double> log_most_;          ///< prior and that
  std::vector<double> log_rest_;  ///< one a chunk and one more: what it and the later ones can have
};

}  // namespace soot::infer
