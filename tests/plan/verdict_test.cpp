// Each verdict by the smallest situation that must give it; the sums are beside the case.
#include "tests/plan/answer_to.hpp"
#include "tests/plan/small.hpp"

#include <doctest/doctest.h>

namespace plan = soot::plan;
using plan::test::answer_to;
using plan::test::one_cause;
using plan::test::yes_or_no;

TEST_CASE("look when a cheap check settles two dear corrections") {
  // Blind: 105 + 0.5 x 105 = 157.5. With the check: 10 + 105 = 115.
  plan::Situation situation = one_cause({0.5, 0.5}, {100, 100}, 5);
  situation.checks = {yes_or_no(10, {1, 0}, 0.5)};
  const plan::Answer answer = answer_to(situation);
  CHECK(answer.verdict == plan::Verdict::look);
  CHECK(answer.proposals.at(0).expected_cost == doctest::Approx(115));
  CHECK(answer.proposals.at(0).saving_over_not_looking == doctest::Approx(42.5));
}

TEST_CASE("correct when the cheap likely cause goes first but looking would pay too") {
  // Cause 0 for 10 with its run, then the check between 1 and 2: 10 + 0.6 x (10 + 205) = 139.
  // Blind all through: 10 + 0.6 x 205 + 0.3 x 205 = 194.5. The check at once, then cause 0 after
  // either outcome: 143, so it pays; but it would not change what is done next.
  plan::Situation situation = one_cause({0.4, 0.3, 0.3}, {5, 200, 200}, 5);
  situation.checks = {yes_or_no(10, {0.5, 1, 0}, 0.5)};
  const plan::Answer answer = answer_to(situation);
  CHECK(answer.verdict == plan::Verdict::correct);
  CHECK(answer.proposals.at(0).move == plan::Move{plan::MoveKind::correction, 0});
  CHECK(answer.proposals.at(0).expected_cost == doctest::Approx(139));
  CHECK(answer.cost_without_looking == doctest::Approx(194.5));
  for (const plan::Proposal& proposal : answer.proposals)
    CHECK(proposal.move.kind != plan::MoveKind::check);
}

TEST_CASE("enough when the cause is as good as known") {
  // The check costs 10 and can save at most 0.02 x 45.
  plan::Situation situation = one_cause({0.98, 0.02}, {40, 40}, 5);
  situation.checks = {yes_or_no(10, {1, 0}, 0.5)};
  const plan::Answer answer = answer_to(situation);
  CHECK(answer.verdict == plan::Verdict::enough);
  const plan::Proposal& best = answer.proposals.at(0);
  CHECK(best.move == plan::Move{plan::MoveKind::correction, 0});
  CHECK(best.mends == doctest::Approx(0.98));
  CHECK(best.cures == doctest::Approx(0.98));
  CHECK(best.expected_cost == doctest::Approx(45 + 0.02 * 45));
}

TEST_CASE("look for a rare cause too when that saves a useless correction") {
  // Blind: 105 + 0.04 x 1005 = 145.2. With the check: 1 + 0.96 x 105 + 0.04 x 1005 = 142.
  plan::Situation situation = one_cause({0.96, 0.04}, {100, 1000}, 5);
  situation.checks = {yes_or_no(1, {1, 0}, 0.5)};
  const plan::Answer answer = answer_to(situation);
  CHECK(answer.verdict == plan::Verdict::look);
  CHECK(answer.proposals.at(0).expected_cost == doctest::Approx(142));
}

TEST_CASE("enough though checks look well beside a short-sighted plan without them") {
  // Both corrections, then one run of 20: 38. Run after each: 41.2, and with a weak check 40.8 and
  // more, which put these checks before the corrections in the first step. None beats 38.
  plan::Situation situation = one_cause({0.6, 0.4}, {10, 8}, 20);
  for (const double cost : {0.10, 0.11, 0.12, 0.13, 0.14})
    situation.checks.push_back(yes_or_no(cost, {0.7 * 0.5 / 0.6, 0.3 * 0.5 / 0.4}, 0.5));
  const plan::Answer answer = answer_to(situation);
  CHECK(answer.verdict == plan::Verdict::enough);
  CHECK(answer.proposals.at(0).move.kind == plan::MoveKind::correction);
  CHECK(answer.proposals.at(0).expected_cost == doctest::Approx(38));
}

TEST_CASE("prove when most likely nothing is wrong any more") {
  // Run 5, then with chance 0.1 the correction of 50 and another run.
  plan::Situation situation = one_cause({0.1}, {50}, 5);
  situation.hypotheses.back().weight = 0.9;
  const plan::Answer answer = answer_to(situation);
  CHECK(answer.verdict == plan::Verdict::prove);
  CHECK(answer.proposals.at(0).expected_cost == doctest::Approx(5 + 0.1 * 55));
}

TEST_CASE("stuck when two causes remain guessing is dear and only a missing check parts them") {
  // A wrong guess wastes 0.45 x 205 = 92. With the check 10 + 205 = 215 against 297.25.
  plan::Situation situation = one_cause({0.55, 0.45}, {200, 200}, 5);
  situation.checks = {yes_or_no(10, {1, 0}, 0.5)};
  situation.checks[0].work.access = plan::Access::out_of_reach;
  const plan::Answer answer = answer_to(situation);
  CHECK(answer.verdict == plan::Verdict::stuck);
  REQUIRE(answer.stuck);
  CHECK(answer.stuck->one.correction == 0);
  CHECK(answer.stuck->one.hypotheses == std::vector<std::size_t>{0});
  CHECK(answer.stuck->other.weight == doctest::Approx(0.45));
  CHECK(answer.stuck->parted_by == 0u);
  CHECK(answer.stuck->would_save == doctest::Approx(205 + 0.45 * 205 - 215));
  CHECK(answer.proposals.at(0).move == plan::Move{plan::MoveKind::correction, 0});

  situation.checks[0].work.access = plan::Access::barred;  // what must not be is not named either
  const plan::Answer barred = answer_to(situation);
  CHECK(barred.verdict == plan::Verdict::stuck);
  CHECK_FALSE(barred.stuck->parted_by);
}

TEST_CASE("not stuck when a wrong guess is cheap or one group is small") {
  // 0.45 x 25 and 0.1 x 205 are both below 30.
  CHECK(answer_to(one_cause({0.55, 0.45}, {20, 20}, 5)).verdict == plan::Verdict::enough);
  CHECK(answer_to(one_cause({0.9, 0.1}, {200, 200}, 5)).verdict == plan::Verdict::enough);
}

TEST_CASE("hand over when the rest costs more than giving the job away") {
  // 0.8 of the weight is nothing known here; correcting costs 105 and mends with chance 0.2:
  // 105 + 0.8 x 100 against 100.
  plan::Situation situation = one_cause({0.2}, {100}, 5);
  situation.hand_over_cost = 100;
  const plan::Answer answer = answer_to(situation);
  CHECK(answer.verdict == plan::Verdict::hand_over);
  CHECK(answer.something_else == doctest::Approx(0.8));
  CHECK(answer.proposals.at(0).expected_cost == doctest::Approx(100));
}

TEST_CASE("hand over when the run must not be made since nothing can be proved") {
  plan::Situation situation = one_cause({1}, {10}, 5);
  situation.run.access = plan::Access::barred;
  CHECK(answer_to(situation).verdict == plan::Verdict::hand_over);
}

TEST_CASE("stuck instead of handing over when a missing check would turn that") {
  // Blind 250 + ... against 220 for giving away; with the check 10 + 205 = 215.
  plan::Situation situation = one_cause({0.5, 0.5}, {200, 200}, 5);
  situation.hand_over_cost = 220;
  CHECK(answer_to(situation).verdict == plan::Verdict::hand_over);
  situation.checks = {yes_or_no(10, {1, 0}, 0.5)};
  situation.checks[0].work.access = plan::Access::out_of_reach;
  const plan::Answer answer = answer_to(situation);
  CHECK(answer.verdict == plan::Verdict::stuck);
  CHECK(answer.stuck->would_save == doctest::Approx(5));
}

TEST_CASE("cured once the run was right whatever the weights say") {
  plan::Situation situation = one_cause({0.5, 0.5}, {100, 100}, 5);
  situation.proved = true;
  const plan::Answer answer = answer_to(situation);
  CHECK(answer.verdict == plan::Verdict::cured);
  CHECK(answer.proposals.empty());
}
