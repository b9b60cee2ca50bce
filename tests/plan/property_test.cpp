// What must hold on any problem, tried on the 24 and on drawn ones of the size of a real job.
#include "core/plan/planner.hpp"
#include "tests/plan/answer_to.hpp"
#include "tests/plan/fixture.hpp"
#include "tests/plan/small.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

namespace plan = soot::plan;
using plan::test::answer_to;

namespace {

bool near(double a, double b) {
  return std::abs(a - b) <= 1e-6 * std::max(1.0, std::abs(b));
}

const plan::Proposal* find(const plan::Answer& answer, const plan::Move& move) {
  for (const plan::Proposal& proposal : answer.proposals)
    if (proposal.move == move) return &proposal;
  return nullptr;
}

void check_same(const plan::Answer& a, const plan::Answer& b, double factor = 1) {
  CHECK(a.verdict == b.verdict);
  REQUIRE(a.proposals.size() == b.proposals.size());
  for (std::size_t place = 0; place < a.proposals.size(); ++place) {
    CHECK(a.proposals[place].move == b.proposals[place].move);
    CHECK(near(a.proposals[place].expected_cost * factor, b.proposals[place].expected_cost));
    CHECK(near(a.proposals[place].saving * factor, b.proposals[place].saving));
  }
}

}  // namespace

TEST_CASE("scaling all costs scales the answer") {
  const double factor = 3;
  for (const plan::test::Fixture& fixture : plan::test::all_fixtures()) {
    CAPTURE(fixture.name);
    plan::Situation scaled = fixture.situation;
    for (plan::Bit& bit : scaled.bits) {
      bit.set_cost *= factor;
      bit.clear_cost *= factor;
    }
    for (plan::Check& check : scaled.checks)
      check.work.cost *= factor;
    for (plan::Correction& correction : scaled.corrections)
      correction.work.cost *= factor;
    scaled.run.cost *= factor;
    scaled.hand_over_cost *= factor;
    plan::Options options;
    options.stuck_risk *= factor;
    check_same(answer_to(fixture.situation), answer_to(scaled, options), factor);
  }
}

TEST_CASE("the order in which checks and corrections are listed does not matter") {
  for (const plan::test::Fixture& fixture : plan::test::all_fixtures()) {
    CAPTURE(fixture.name);
    plan::Situation turned = fixture.situation;
    std::reverse(turned.checks.begin(), turned.checks.end());
    std::reverse(turned.corrections.begin(), turned.corrections.end());
    plan::Answer back = answer_to(turned);
    for (plan::Proposal& proposal : back.proposals) {
      if (proposal.move.kind == plan::MoveKind::check)
        proposal.move.index = turned.checks.size() - 1 - proposal.move.index;
      if (proposal.move.kind == plan::MoveKind::correction)
        proposal.move.index = turned.corrections.size() - 1 - proposal.move.index;
    }
    check_same(answer_to(fixture.situation), back);
  }
}

TEST_CASE("the same question twice has the same answer bit for bit") {
  for (const plan::test::Fixture& fixture : plan::test::all_fixtures()) {
    const plan::Answer one = answer_to(fixture.situation);
    const plan::Answer two = answer_to(fixture.situation);
    REQUIRE(one.proposals.size() == two.proposals.size());
    for (std::size_t place = 0; place < one.proposals.size(); ++place)
      CHECK(one.proposals[place].expected_cost == two.proposals[place].expected_cost);
    CHECK(one.work == two.work);
  }
}

TEST_CASE("a check that says nothing and a correction that mends nothing change nothing") {
  for (const plan::test::Fixture& fixture : plan::test::all_fixtures()) {
    CAPTURE(fixture.name);
    plan::Situation more = fixture.situation;
    plan::Check idle;
    idle.likelihood.assign(more.hypotheses.size(), {0.3, 0.7});
    more.checks.push_back(idle);
    plan::Correction useless;
    useless.mends = {{99, 1.0}};
    more.corrections.push_back(useless);
    check_same(answer_to(fixture.situation), answer_to(more));
  }
}

TEST_CASE("of two checks with the same rows the dearer is never put first") {
  for (const plan::test::Fixture& fixture : plan::test::all_fixtures()) {
    CAPTURE(fixture.name);
    plan::Situation more = fixture.situation;
    const std::size_t count = more.checks.size();
    for (std::size_t index = 0; index < count; ++index) {
      more.checks.push_back(more.checks[index]);
      more.checks.back().work.cost += 0.5;
    }
    const plan::Answer answer = answer_to(more);
    const plan::Move best = answer.proposals.at(0).move;
    CHECK_FALSE((best.kind == plan::MoveKind::check && best.index >= count));
    for (std::size_t index = 0; index < count; ++index) {
      const plan::Proposal* dear = find(answer, {plan::MoveKind::check, count + index});
      const plan::Proposal* cheap = find(answer, {plan::MoveKind::check, index});
      if (dear == nullptr) continue;
      REQUIRE(cheap != nullptr);
      CHECK(cheap->expected_cost < dear->expected_cost);
    }
  }
}

TEST_CASE("a move that is not open never appears and without any the job is handed over") {
  for (const plan::test::Fixture& fixture : plan::test::all_fixtures()) {
    CAPTURE(fixture.name);
    plan::Situation fewer = fixture.situation;
    std::vector<plan::Move> shut;
    for (plan::Access access = plan::Access::barred;;) {
      const plan::Answer answer = answer_to(fewer);
      for (const plan::Move& move : shut)
        CHECK(find(answer, move) == nullptr);
      const plan::Move best = answer.proposals.at(0).move;
      if (best.kind == plan::MoveKind::hand_over) break;
      plan::Work& work = best.kind == plan::MoveKind::check ? fewer.checks[best.index].work
                                                            : fewer.corrections[best.index].work;
      work.access = access;
      shut.push_back(best);
      access = access == plan::Access::barred ? plan::Access::out_of_reach : plan::Access::barred;
    }
    CHECK(shut.size() > 1);
  }
}

TEST_CASE("the saving is what the next best move would cost more") {
  for (const plan::test::Fixture& fixture : plan::test::all_fixtures()) {
    CAPTURE(fixture.name);
    const plan::Answer answer = answer_to(fixture.situation);
    REQUIRE(answer.proposals.size() > 1);
    const double best = answer.proposals[0].expected_cost;
    CHECK(near(answer.proposals[0].saving, answer.proposals[1].expected_cost - best));
    for (std::size_t place = 1; place < answer.proposals.size(); ++place) {
      CHECK(answer.proposals[place].saving <= 1e-6);
      CHECK(answer.proposals[place].expected_cost >= best - 1e-6);
      if (answer.proposals[place].move.kind == plan::MoveKind::check)
        CHECK(answer.proposals[place].saving_over_not_looking > 0);
    }
  }
}

TEST_CASE("a spent budget falls back to one step and says so") {
  const plan::test::Fixture fixture = plan::test::all_fixtures().front();
  plan::Options options;
  options.work = 1;
  const plan::Answer hurried = answer_to(fixture.situation, options);
  options.work = 0;
  const plan::Answer one_step = answer_to(fixture.situation, options);
  CHECK(hurried.deep == 1);
  CHECK(one_step.deep == 1);
  CHECK(answer_to(fixture.situation).deep == 2);
  check_same(hurried, one_step);
}

TEST_CASE("a problem of the size of a real job is looked at two steps deep within the budget") {
  for (const unsigned seed : {1U, 2U}) {
    const plan::Situation situation = plan::test::product_size(seed);
    const plan::Answer answer = answer_to(situation);
    CHECK(answer.deep == 2);
    CHECK(answer.work < plan::Options{}.work);
    plan::Options options;
    options.work = 0;
    const plan::Answer one_step = answer_to(situation, options);
    CHECK(answer.proposals.at(0).expected_cost <= one_step.proposals.at(0).expected_cost + 1e-6);
    CHECK(answer.proposals.at(0).expected_cost <= answer.cost_without_looking + 1e-6);
  }
}
