// Internal to core/infer. One regime of a group: where its shift is looked at, and what the blocks
// and the states say there. Regimes are laid side by side, each from what those before have come
// to.
#pragma once

#include "core/infer/nodes.hpp"
#include "core/infer/regime_grid.hpp"
#include "core/infer/shares.hpp"

#include <cstddef>
#include <optional>
#include <vector>

namespace soot::infer {

/// What the regimes so far have come to.
struct LaidSoFar {
  Shares shares;
  double best = nothing;  ///< log of the best node
};

struct LaidRegime {
  Regime regime;  ///< chunks counted from 0; none if it does not matter
  /// One a block, and the open reading's, chunk after chunk.
  std::vector<Nodes::Numbers> likelihood;
  std::optional<OpenReading> open;
  std::vector<CommonState> states;
  std::vector<double> mass;   ///< log, one a state
  double best = nothing;      ///< log of the best node
  double left_out = nothing;  ///< log, in the measure of `mass`
  double quadrature_error = 0;
  double numbers = 0;  ///< of the likelihoods
};

/// What a group's regimes have in common.
struct RegimeInput {
  const NodeInput& nodes;
  const ReadingPrecision& readings;
  const std::vector<BlockPrior>& priors;
};

/// Upper bound of the log of what these states can add, by their priors and the greatest densities
/// that the readings can have at all.
double most_of(const NodeInput& input, const std::vector<std::size_t>& states);

/// No other regime may be using the likelihoods meanwhile. Nothing if the budget runs out.
std::optional<LaidRegime> lay_regime(const RegimeInput& input,
                                     const std::vector<std::size_t>& states,
                                     const LaidSoFar& so_far, double& budget);

}  // namespace soot::infer
