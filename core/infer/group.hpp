// Internal to core/infer. A group made ready for all histories: its nodes, the weight of each state
// of the commons at each node, the likelihood of each block's assignments, and how the blocks'
// tables are joined. Priors given a history only decided what of it matters, so it is made once.
#pragma once

#include "core/infer/contraction.hpp"
#include "core/infer/nodes.hpp"

#include <cstddef>
#include <vector>

namespace soot::infer {

struct PreparedGroup {
  Group group;
  std::vector<CommonState> states;
  Nodes nodes;
  std::vector<Contraction> blocks;
  /// Joins of the blocks before (left) with block b (right); the first block joins nothing. `back`
  /// has the sides exchanged.
  std::vector<Join> joins, back;
  double error = 0;      ///< relative, of quadrature
  double pass_work = 0;  ///< steps under one history, there and back

  /// Numbers of the table of the blocks up to b.
  std::size_t size_upto(std::size_t b) const {
    return b == 0 ? blocks[0].table_size() : joins[b].out_size();
  }
  /// Sets of the bits that the blocks touch, and of all the group's; where the former lie.
  std::size_t block_sets() const { return spread.size(); }
  std::size_t sets() const { return std::size_t{1} << group.bits.size(); }
  std::vector<std::size_t> spread;
};

/// `priors`: one a possible history. Fails when the work would exceed the budget, and says by what.
Result<PreparedGroup> prepare_group(const Network& network, const Instances& instances,
                                    const Evidence& evidence, const Group& group,
                                    const std::vector<std::vector<Touch>>& touches,
                                    const std::vector<Priors>& priors, double tolerance,
                                    double& budget);

}  // namespace soot::infer
