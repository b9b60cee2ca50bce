// What a check would part from what, for the one line a person reads beside it.
#pragma once

#include "core/plan/answer.hpp"
#include "core/plan/tables.hpp"

namespace soot::plan {

/// The pair of causes with the largest weight(i) weight(j) x half the sum over outcomes of
/// |P(o given i) - P(o given j)|, of those above a fiftieth of the weight; the others beside the
/// one whose telling outcome raises them most, heaviest first.
Parting parted_by(const Check& check, const Situation& situation, const Belief& belief);

}  // namespace soot::plan
