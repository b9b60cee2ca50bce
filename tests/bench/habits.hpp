// Ways to choose the next move that need no look-ahead: what the planner is held against. Each
// runs the complaint after every correction and hands over when nothing is left to try.
#pragma once

#include "core/plan/answer.hpp"
#include "core/plan/situation.hpp"

namespace soot::bench {

/// Corrections only, by the chance that they mend over what they cost with the run after them;
/// hands over where that costs less (core/plan/leaf.hpp).
plan::Move chance_over_cost(const plan::Situation& situation);

/// Whatever costs least to do now, of the checks that can tell something and the corrections that
/// can mend something.
plan::Move cheapest_first(const plan::Situation& situation);

/// The check that tells most bits for its cost, until a correction mends with a chance of 0.45 or
/// no check tells anything; then the correction of the best chance over cost. The usual rule of
/// diagnosis by information (de Kleer and Williams, Artificial Intelligence 32, 1987); the
/// threshold is judgement.
plan::Move most_told_for_cost(const plan::Situation& situation);

}  // namespace soot::bench
