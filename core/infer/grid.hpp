// Internal to core/infer. The nodes of one regime: a point, or a grid over its active directions
// with the precision that its share of the evidence asks for.
#pragma once

#include "core/infer/nodes.hpp"

#include <cstddef>
#include <limits>
#include <vector>

namespace soot::infer {

/// What all regimes of a group together have come to so far.
struct Whole {
  double best = -std::numeric_limits<double>::infinity();      ///< greatest log value of a node
  double log_mass = -std::numeric_limits<double>::infinity();  ///< of the evidence
  double dropped = 0;  ///< greatest share of the evidence in regimes left out

  void add(double log_part);
};

/// The direction needs no axis in this state: known exactly, or left to one block's covariance.
bool is_point(const NodeInput& input, const CommonState& state, std::size_t direction);

/// The narrowest Gaussian along a direction at D: what the magnitudes and the readings there can
/// give together.
double narrowest(const NodeInput& input, std::size_t direction, double variance, double at);

/// Fills the regime's nodes, weights and error. False if the budget ran out.
bool lay_regime(const NodeInput& input, std::vector<BlockLikelihood>& likelihoods, Regime& regime,
                Whole& whole, double& budget);

}  // namespace soot::infer
