// What several sums refuse alike.
#pragma once

#include "core/base/problem.hpp"

#include <optional>
#include <string_view>

namespace soot::calc {

inline constexpr double fastest_rpm = 5000;

/// A speed of 0, or of no engine meant here.
inline std::optional<Problem> refuse_speed(double rpm, std::string_view what) {
  if (rpm > 0 && rpm <= fastest_rpm) return std::nullopt;
  return make_problem(Kind::use, "{} at {:g} rpm (expected above 0 and at most {:g})", what, rpm,
                      fastest_rpm);
}

}  // namespace soot::calc
