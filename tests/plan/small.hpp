// Small situations written by hand, for tests whose figures a reader can check on paper. One cause
// present, no bits, the run free of conditions, unless the test adds them.
#pragma once

#include "core/plan/situation.hpp"

#include <vector>

namespace soot::plan::test {

/// Cause i has weight p[i] and its own correction of cost[i]; handing over costs 10000.
Situation one_cause(const std::vector<double>& p, const std::vector<double>& cost, double run_cost);

/// A check of two outcomes, the first with chance yes[i] under cause i, and like `sound` on the
/// sound engine.
Check yes_or_no(double cost, const std::vector<double>& yes, double sound);

/// Drawn at random, the same for the same seed: 40 sets of causes, 120 checks of 5 outcomes, 60
/// corrections, 20 bits, a twentieth of the weight on something else.
Situation product_size(unsigned seed);

}  // namespace soot::plan::test
