// Internal to core/infer. A group made ready for all histories: its nodes, the weight of each state
// of the commons at each node, and the likelihood of each block's assignments. None of this depends
// on priors or symptoms, so it is computed once.
#pragma once

#include "core/infer/nodes.hpp"

#include <cstddef>
#include <vector>

namespace soot::infer {

/// A few neighbouring nodes of one regime, small enough to be worked on in the cache.
struct Chunk {
  std::size_t regime = 0;
  std::size_t first = 0;  ///< node, counted through the group
  std::size_t count = 0;
};

struct PreparedGroup {
  Group group;
  std::vector<CommonState> states;
  std::vector<Regime> regimes;  ///< log_weight scaled and exponentiated into `weight`
  /// weight[r][i * nodes of the regime + s] of state i at node s, over exp(log_scale)
  std::vector<std::vector<double>> weight;
  /// likelihood[b][x * nodes + s], the greatest at each node scaled to 1
  std::vector<std::vector<double>> likelihood;
  std::size_t nodes = 0;
  std::vector<std::size_t> first_node;  ///< one a regime
  std::vector<Chunk> chunks;
  double log_scale = 0;
  double error = 0;  ///< relative, of quadrature
};

/// `priors`: one a possible history.
Result<PreparedGroup> prepare_group(const Network& network, const Instances& instances,
                                    const Evidence& evidence, const Group& group,
                                    const std::vector<Priors>& priors, double tolerated,
                                    double& budget);

}  // namespace soot::infer
