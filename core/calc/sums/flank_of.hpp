// The flank a timing sum works on: the rate given by hand if there is one, else the engine's law,
// else the family's rate.
#pragma once

#include "core/base/problem.hpp"
#include "core/calc/flank.hpp"
#include "core/calc/worksheet.hpp"

#include <optional>

namespace soot::calc {

/// The need that goes with it: `rate`, left out where the engine has a law.
inline constexpr Need rate_need{
    "rate",
    Dimension::lift_rate,
    "lift of the pump cam a crank degree, in place of the engine's own law",
    "",
    "",
    std::nullopt,
    false};

/// Nothing where the engine tells of no law and no rate; fails on an impossible one.
Result<std::optional<Flank>> flank_of(Worksheet& sheet, const Ask& ask);

/// The same for a sum that cannot do without.
Result<Flank> needed_flank(Worksheet& sheet, const Ask& ask);

/// How the flank was taken, for the assumptions.
std::string describe(const Flank& flank);

}  // namespace soot::calc
