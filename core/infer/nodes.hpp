// Internal to core/infer. Where a group's engine-wide shift is looked at. States of the commons
// that shift alike are one *regime* and share nodes: a single point where every magnitude is known
// exactly (a tooth) or left to one block's covariance; else a grid, one axis a direction. Nodes
// that lie e^-80 below the best of all regimes are left out. (e^-50 would do for the evidence, but
// not for the tenth digit of rare grades.)
//
// Two and more directions at once are several uncertain engine-wide causes at once: rare, and their
// grids are large. Where the full precision would cost too much they are looked at coarsely first,
// and finer only as far as their share of the evidence asks for; the error left is stated.
#pragma once

#include "core/base/problem.hpp"
#include "core/infer/commons.hpp"
#include "core/infer/likelihood.hpp"

#include <cstddef>
#include <vector>

namespace soot::infer {

struct Regime {
  std::vector<std::size_t> states;  ///< indices into the group's states
  std::vector<Shift> nodes;
  std::vector<std::vector<double>> log_weight;  ///< one row a node, one entry a state of the regime
  bool faulty = false;                          ///< an instrument is wrong
  double error = 0;                             ///< relative, of quadrature
};

struct NodeInput {
  const Network& network;
  const Evidence& evidence;
  const Group& group;
  const Directions& directions;
  const std::vector<CommonState>& states;
  /// One a state: its greatest log prior over the histories.
  const std::vector<double>& log_prior;
  /// One row a block, one entry an assignment: its greatest prior over the histories.
  const std::vector<std::vector<double>>& prior;
  /// Share of the evidence that a regime may leave as error.
  double tolerated = 0;
};

/// `budget`: elementary steps that may be spent on looking; what was spent is taken off.
Result<std::vector<Regime>> lay_nodes(const NodeInput& input,
                                      std::vector<BlockLikelihood>& likelihoods, double& budget);

}  // namespace soot::infer
