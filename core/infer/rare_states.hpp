// Internal to core/infer. With a tolerance: of the states of all regimes laid, those that do not
// matter are dropped, for what a pass costs goes with their number.
#pragma once

#include "core/infer/nodes.hpp"

#include <vector>

namespace soot::infer {

/// Drops those that together come to `harmless` at most, and returns to how much; but of every
/// regime, and of every grade and fault, the greatest stays: the symptoms may speak for it.
/// `mass`: one row a regime, one entry a state. All logs.
double drop_rare_states(const Commons& commons, const std::vector<std::vector<double>>& mass,
                        double harmless, std::vector<Regime>& regimes);

}  // namespace soot::infer
