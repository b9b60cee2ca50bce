// The planner's answer where there must be one.
#pragma once

#include "core/plan/planner.hpp"

#include <doctest/doctest.h>

namespace soot::plan::test {

inline Answer answer_to(const Situation& situation, const Options& options = {}) {
  const Result<Answer> answer = next_move(situation, options);
  REQUIRE_MESSAGE(answer, to_string(answer.error()));
  return *answer;
}

}  // namespace soot::plan::test
