// Rules of the situation itself: what is refused, what bits and mending do to costs, what is said
// of a check. Hand-made, the sums beside them.
#include "core/plan/faults.hpp"
#include "core/plan/mending.hpp"
#include "core/plan/planner.hpp"
#include "tests/plan/answer_to.hpp"
#include "tests/plan/small.hpp"

#include <doctest/doctest.h>

#include <functional>
#include <limits>

namespace plan = soot::plan;
using plan::test::answer_to;
using plan::test::one_cause;
using plan::test::yes_or_no;

namespace {

plan::Situation sound_one() {
  plan::Situation situation = one_cause({0.5, 0.5}, {100, 100}, 5);
  situation.checks = {yes_or_no(10, {1, 0}, 0.5)};
  situation.bits = {{10, 5, {}}, {1, 1, {0}}};
  return situation;
}

std::string fault_after(const std::function<void(plan::Situation&)>& spoil) {
  plan::Situation situation = sound_one();
  REQUIRE(plan::faults_of(situation).empty());
  spoil(situation);
  const soot::Result<plan::Answer> answer = plan::next_move(situation);
  REQUIRE_FALSE(answer);
  return answer.error().at(0).text;
}

}  // namespace

TEST_CASE("a faulty situation is refused with a sentence") {
  using plan::Situation;
  CHECK(fault_after([](Situation& s) { s.run.cost = -1; }) ==
        "run costs -1 (expected a finite cost, not below 0)");
  CHECK(fault_after([](Situation& s) {
          s.hand_over_cost = std::numeric_limits<double>::infinity();
        }) == "handing over costs inf (expected a finite cost, not below 0)");
  CHECK(fault_after([](Situation& s) { s.checks[0].work.on = {7}; }) ==
        "check 0 names bit 7 of 2 (they count from 0)");
  CHECK(fault_after([](Situation& s) { s.bits[0].under = {1}; }) == "bit 0 lies under itself");
  CHECK(fault_after([](Situation& s) { s.bits.resize(300); }) == "300 bits (expected at most 256)");
  CHECK(fault_after([](Situation& s) { s.bits_on = {1}; }) ==
        "a bit is on and one that it lies under is off (expected both on)");
  CHECK(fault_after([](Situation& s) {
          s.corrections[1].work.on = {1};
          s.corrections[1].work.off = {0};
        }) == "correction 1 asks a bit both on and off");
  CHECK(fault_after([](Situation& s) { s.hypotheses[1].weight = 0.7; }) ==
        "the weights sum to 1.2 (expected at most 1)");
  CHECK(fault_after([](Situation& s) { s.hypotheses[1].causes = {0}; }) ==
        "hypothesis 1 holds the causes {0} once more");
  CHECK(fault_after([](Situation& s) {
          s.hypotheses[1].causes = {1, 1};
        }) == "hypothesis 1 names a cause twice: {1 1}");
  CHECK(fault_after([](Situation& s) { s.checks[0].likelihood.pop_back(); }) ==
        "check 0 has 2 rows (expected one for each of 3 hypotheses)");
  CHECK(fault_after([](Situation& s) {
          s.checks[0].likelihood[1] = {0.5, 0.4};
        }) == "check 0: row 1 sums to 0.9 (expected 1)");
  CHECK(fault_after([](Situation& s) { s.checks[0].likelihood[1] = {1}; }) ==
        "check 0: row 1 has 1 outcomes (expected 2)");
  CHECK(fault_after([](Situation& s) { s.hypotheses[1].weight = 0.3; }) ==
        "check 0 has no row for something else, which has weight");
  CHECK(fault_after([](Situation& s) { s.corrections[0].mends[0].chance = 1.5; }) ==
        "correction 0 mends cause 0 with chance 1.5 (expected 0 to 1)");
  CHECK(fault_after([](Situation& s) {
          s.hypotheses.pop_back();
          s.checks[0].likelihood.pop_back();
        }) ==
        "no hypothesis for the causes {}, which corrections can leave (expected it, weight 0)");
}

TEST_CASE("one draw decides for all that a correction mends") {
  plan::Correction correction;
  correction.mends = {{3, 0.5}, {1, 0.9}, {8, 1.0}};
  const std::vector<plan::Remainder> left = plan::remainders(correction, {1, 2, 3});
  REQUIRE(left.size() == 3);
  CHECK(left[0].causes == plan::CauseSet{1, 2, 3});
  CHECK(left[0].chance == doctest::Approx(0.1));
  CHECK(left[1].causes == plan::CauseSet{2, 3});
  CHECK(left[1].chance == doctest::Approx(0.4));
  CHECK(left[2].causes == plan::CauseSet{2});
  CHECK(left[2].chance == doctest::Approx(0.5));
}

TEST_CASE("work that half mends is not made twice by reckoning with it") {
  // {0 1} becomes {} with chance 0.5, {1} with 0.4; that {1} is not mended again by the same work.
  plan::Situation situation = one_cause({0, 0}, {20, 15}, 5);
  situation.hypotheses.push_back({{0, 1}, 1});
  situation.corrections[0].mends = {{0, 0.9}, {1, 0.5}};
  situation.corrections[1].work.access = plan::Access::barred;
  const plan::Answer answer = answer_to(situation);
  REQUIRE(answer.proposals.at(0).move == plan::Move{plan::MoveKind::correction, 0});
  CHECK(answer.proposals[0].cures == doctest::Approx(0.5));
  CHECK(answer.proposals[0].mends == doctest::Approx(0.9));
  CHECK(answer.proposals[0].expected_cost == doctest::Approx(20 + 5 + 0.5 * 10000));
}

TEST_CASE("the sets that mending can leave are found through several corrections") {
  plan::Correction one;
  one.mends = {{1, 1.0}};
  plan::Correction two;
  two.mends = {{2, 0.8}};
  CHECK(plan::sets_left_by({one, two}, {{2, 1}, {5}}) == std::vector<plan::CauseSet>{{}, {1}, {2}});
  two.work.access = plan::Access::barred;
  CHECK(plan::sets_left_by({one, two}, {{2, 1}, {5}}) == std::vector<plan::CauseSet>{{2}});
}

TEST_CASE("bits are paid when they change and with what they lie under") {
  // Inner cover 1 lies under outer cover 0. Correction 20 behind both: open 30 + 7, close 11 + 3
  // for the run of 5.
  plan::Situation situation = one_cause({1}, {20}, 5);
  situation.bits = {{30, 11, {}}, {7, 3, {0}}};
  situation.corrections[0].work.on = {1};
  situation.run.off = {0};
  const plan::Answer closed = answer_to(situation);
  CHECK(closed.proposals.at(0).expected_cost == doctest::Approx(37 + 20 + 14 + 5));
  CHECK(closed.proposals.at(0).change_cost == doctest::Approx(37));
  CHECK(closed.proposals.at(0).own_cost == doctest::Approx(20));
  CHECK(closed.proposals.at(0).put_on == std::vector<std::size_t>{0, 1});
  situation.bits_on = {0, 1};
  const plan::Answer open = answer_to(situation);
  CHECK(open.proposals.at(0).expected_cost == doctest::Approx(20 + 14 + 5));
  CHECK(open.proposals.at(0).put_on.empty());
}

TEST_CASE("work that undoes a proof makes the run pay for it again") {
  // The run asks for bit 0 (a stop test of 12 minutes), which stands proved at first.
  plan::Situation situation = one_cause({1}, {20}, 5);
  situation.bits = {{12, 0, {}}};
  situation.bits_on = {0};
  situation.run.on = {0};
  CHECK(answer_to(situation).proposals.at(0).expected_cost == doctest::Approx(25));
  situation.corrections[0].work.undo = {0};
  CHECK(answer_to(situation).proposals.at(0).expected_cost == doctest::Approx(37));
}

TEST_CASE("of two corrections that will both be made the lower order goes first") {
  // Both causes are present: 20 + 15 + 5 in either order.
  plan::Situation situation = one_cause({0, 0}, {20, 15}, 5);
  situation.hypotheses.push_back({{0, 1}, 1});
  situation.corrections[0].order = 1;
  plan::Answer answer = answer_to(situation);
  CHECK(answer.proposals.at(0).expected_cost == doctest::Approx(40));
  CHECK(answer.proposals.at(1).expected_cost == doctest::Approx(40));
  CHECK(answer.proposals.at(0).move.index == 1);
  situation.corrections[0].order = 0;
  situation.corrections[1].order = 1;
  CHECK(answer_to(situation).proposals.at(0).move.index == 0);
}

TEST_CASE("a check names the causes it parts most and sides the others") {
  // Heavy causes 0 and 1 part on outcome 0; 2 goes with 0, 3 with 1; 4 is too light to be named.
  plan::Situation situation = one_cause({0.4, 0.3, 0.16, 0.13, 0.01}, {90, 90, 90, 90, 90}, 5);
  situation.checks = {yes_or_no(2, {0.95, 0.05, 0.8, 0.2, 0.95}, 0.5)};
  const plan::Answer answer = answer_to(situation);
  REQUIRE(answer.proposals.at(0).move.kind == plan::MoveKind::check);
  CHECK(answer.proposals[0].parts.one == plan::CauseSet{0, 2});
  CHECK(answer.proposals[0].parts.other == plan::CauseSet{1, 3});
}

TEST_CASE("something else is weighed by its own row and mended by nothing") {
  // Hand over 100. The check says surely whether it is cause 0 (0.5): 10 + 0.5 x 55 + 0.5 x 100.
  plan::Situation situation = one_cause({0.5}, {50}, 5);
  situation.hand_over_cost = 100;
  situation.checks = {yes_or_no(10, {1}, 0.5)};
  situation.checks[0].rest = {0, 1};
  const plan::Answer answer = answer_to(situation);
  CHECK(answer.something_else == doctest::Approx(0.5));
  REQUIRE(answer.proposals.at(0).move.kind == plan::MoveKind::check);
  CHECK(answer.proposals[0].expected_cost == doctest::Approx(87.5));
  CHECK(answer.cost_without_looking == doctest::Approx(100));
}
