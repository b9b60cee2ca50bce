// A family's figures held against each other: what was typed against what the rules of derived.hpp
// make of the rest.
#pragma once

#include "core/base/problem.hpp"
#include "core/calc/lift_law.hpp"
#include "core/model/family.hpp"

#include <optional>

namespace soot::calc {

/// One problem (Kind::data, at the figure's place) for every part of a figure that the others
/// contradict (idle above rated speed as well), and for every figure marked derived that nothing
/// derives. What is given counts as
/// exact; what is marked derived, and the figure in question, are taken as rounded to the last
/// place written. `law` may be null.
Problems contradictions(const Family& family, const LiftLaw* law);

/// A lifter depth at which the plunger would meet its head: higher than the other figures make it
/// by more than the room over the plunger. Nothing set by such a figure may be turned.
std::optional<Problem> plunger_meets_head(const Family& family, const LiftLaw* law);

}  // namespace soot::calc
