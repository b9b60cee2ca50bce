// What is wrong with a situation, before any planning: so that the planner itself need not ask.
#pragma once

#include "core/base/problem.hpp"
#include "core/plan/situation.hpp"

namespace soot::plan {

/// Empty if it can be planned with; else one problem (Kind::data) for each fault, at most 20.
/// Asked: costs finite and not below 0; indices that exist; at most 256 bits, no ring among them;
/// nothing asked both on and off, counting what bits lie under; weights that sum to at most 1; no
/// set twice; a row a hypothesis, each the same length and summing to 1 (within 1e-5); a row for
/// "something else" if it has weight; a hypothesis for each set that corrections can leave.
Problems faults_of(const Situation& situation);

}  // namespace soot::plan
