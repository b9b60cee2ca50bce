// Internal to core/infer. Where a group's engine-wide shift is looked at. States of the commons
// that shift alike are one *regime* and share nodes: a single point where every magnitude is known
// exactly (a tooth) or left to one block's covariance; else a grid, one axis a direction.
//
// Several directions at once are several uncertain engine-wide causes at once: rare, and their
// grids are large. A regime is looked at as finely as what it adds to the rarest of its causes asks
// for (an error of 1e-11 of that, or the tolerance), and left out where it cannot add so much.
#pragma once

#include "core/infer/buffer.hpp"
#include "core/infer/commons.hpp"
#include "core/infer/likelihood.hpp"

#include <cstddef>
#include <optional>
#include <vector>

namespace soot::infer {

/// Nodes come in chunks of `lanes`; the last one of a smooth piece is filled up with weight 0.
struct Regime {
  std::vector<std::size_t> states;  ///< indices into the commons' states, once prepared the group's
  bool faulty = false;              ///< an instrument is wrong
  std::size_t first = 0;            ///< chunk, counted through the group
  std::size_t chunks = 0;
  std::vector<double> weight;  ///< [chunk][state][lane]; logs until the group is complete
};

/// What the nodes say of a reading that may be anything (`Reading::is_open`), the only bound of
/// its block.
struct OpenReading {
  using Numbers = std::vector<double, Uncleared<double>>;
  std::size_t block = 0;
  Numbers mean, sd;  ///< as the block's likelihood
};

struct Nodes {
  using Numbers = OpenReading::Numbers;
  std::vector<Regime> regimes;
  std::size_t chunks = 0;
  /// One a block: [chunk][assignment][lane], the greatest at each node scaled to 1.
  std::vector<Numbers> likelihood;
  std::optional<OpenReading> open;
  double log_scale = 0;
  /// Relative. Of the quadrature on fine grids: of all that is asked, a rare band of the open
  /// reading too. Of what was left out, and of coarse grids, where that can hardly matter: of the
  /// evidence as it stands.
  double quadrature_error = 0, left_out = 0;
  double error() const { return quadrature_error + left_out; }
};

struct NodeInput {
  const Network& network;
  const Evidence& evidence;
  const Group& group;
  const Directions& directions;
  const Commons& commons;
  /// One a state: its greatest log prior over the histories.
  const std::vector<double>& log_prior;
  /// One row a block, one entry an assignment: its greatest prior over the histories.
  const std::vector<std::vector<double>>& prior;
  std::vector<BlockLikelihood>& likelihoods;
  /// Share of the evidence that may be left as error by each of: a regime that is dropped, the
  /// nodes trimmed off one, the states dropped from all. Measured against what all have come to
  /// with the greatest priors over the histories.
  double tolerance = 0;

  NodeInput with(std::vector<BlockLikelihood>& own) const {
    return {network, evidence, group, directions, commons, log_prior, prior, own, tolerance};
  }
};

/// Likelihoods of one group may take so many numbers: 128 MB.
inline constexpr double most_node_numbers = 1 << 24;

/// `budget`: elementary steps that may be spent; what was spent is taken off. Nothing if it runs
/// out.
std::optional<Nodes> lay_nodes(const NodeInput& input, double& budget);

}  // namespace soot::infer
