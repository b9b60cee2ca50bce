// The made-up planning problems of tests/data/plan with their exact answers, and the judge of a
// planner on them: its exact expected cost, every outcome followed, by arithmetic of its own.
#pragma once

#include "core/plan/answer.hpp"
#include "core/plan/situation.hpp"

#include <nlohmann/json.hpp>

#include <functional>
#include <string>
#include <vector>

namespace soot::plan::test {

struct Fixture {
  std::string name;
  Situation situation;
  nlohmann::json answer;  ///< as in the file: optimal_cost, policies, ...
};

Fixture read_fixture(const nlohmann::json& problem);
/// All 24, single-01 to multi-12.
std::vector<Fixture> all_fixtures();

/// "check 2", "correction 0", "test", "hand-over", as the files write moves.
std::string written(const Move& move);

/// Says the next move as things stand.
using Policy = std::function<Move(const Situation&)>;

/// next_move(); `two_steps` false: its one-step answer.
Policy planner(bool two_steps);

/// Expected cost of doing what the policy says until the job ends. Corrections must mend all their
/// causes with one chance, as in the files.
double cost_of_following(const Situation& situation, const Policy& policy);

}  // namespace soot::plan::test
