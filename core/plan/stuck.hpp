// When looking no longer pays and guessing is dear: which two groups of causes remain, and which
// check that cannot be made here would part them.
#pragma once

#include "core/plan/answer.hpp"
#include "core/plan/planner.hpp"
#include "core/plan/search.hpp"
#include "core/plan/tables.hpp"

#include <optional>

namespace soot::plan {

/// Minutes: no plan is worth more than another by less.
inline constexpr double no_saving = 1e-6;

/// Nothing unless two groups hold Options::stuck_share each and doing the correction of the
/// heavier one in the blind risks more than Options::stuck_risk. `best_cost`: of the best plan with
/// what is at hand.
std::optional<Stuck> stuck_between(const Situation& situation, const Tables& tables, Search& search,
                                   double best_cost, const Options& options);

}  // namespace soot::plan
