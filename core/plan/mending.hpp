// What corrections can make of sets of causes: a situation needs a hypothesis for whatever mending
// may leave behind, since later checks are made on that engine.
#pragma once

#include "core/plan/situation.hpp"

#include <vector>

namespace soot::plan {

struct Remainder {
  CauseSet causes;  ///< ascending
  double chance = 0;
};

/// Every set the correction can leave of `causes` (ascending), with its chance, fewest mended
/// first. The set itself stands among them if the work can fail. Chances sum to 1.
std::vector<Remainder> remainders(const Correction& correction, const CauseSet& causes);

/// Every set that corrections (those that are open) can leave of the given ones and that is not
/// among them; each ascending. Add them to a situation with weight 0.
std::vector<CauseSet> sets_left_by(const std::vector<Correction>& corrections,
                                   const std::vector<CauseSet>& sets);

CauseSet ascending(CauseSet causes);

}  // namespace soot::plan
