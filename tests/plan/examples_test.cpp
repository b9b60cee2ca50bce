// Worked examples with their answers (tests/data/plan/examples.json). The rules are published, the
// numbers are made up: order of corrections by chance over cost, Kadane and Simon 1975 and
// Heckerman, Breese and Rommelse 1995; by odds over cost with several faults, Srinivas 1995; when
// to test, Ottosen and Jensen 2010; the worth of a check, Howard 1966 (from memory).
#include "core/plan/leaf.hpp"
#include "tests/places.hpp"
#include "tests/plan/answer_to.hpp"
#include "tests/plan/fixture.hpp"
#include "tests/plan/small.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <fstream>

namespace plan = soot::plan;
using nlohmann::json;
using plan::test::answer_to;

namespace {

json example(const std::string& id) {
  std::ifstream file(source_dir() + "/tests/data/plan/examples.json");
  const json all = json::parse(file);
  for (const json& entry : all.at("examples"))
    if (entry.at("id") == id) return entry;
  FAIL("no example " << id);
  return {};
}

std::vector<double> numbers(const json& from) {
  return from.get<std::vector<double>>();
}

plan::Situation orders(const json& given) {
  return plan::test::one_cause(numbers(given.at("p")), numbers(given.at("cost")),
                               given.at("test_cost"));
}

/// The order in which the plan without checks makes its corrections, each having failed to cure.
std::vector<std::size_t> order_of_leaf(plan::Situation situation) {
  std::vector<std::size_t> order;
  plan::Left left(situation.corrections.size(), 1);
  while (order.size() < left.size()) {
    const plan::Tables tables = plan::make_tables(situation);
    const plan::Rest rest = plan::Leaf(tables)(tables.start, tables.start_on, left);
    REQUIRE(rest.first.kind == plan::MoveKind::correction);
    const std::size_t done = rest.first.index;
    order.push_back(done);
    left[done] = 0;
    const double failed = 1 - situation.hypotheses[done].weight;
    situation.hypotheses[done].weight = 0;
    for (plan::Hypothesis& hypothesis : situation.hypotheses)
      if (failed > 1e-9) hypothesis.weight /= failed;
  }
  return order;
}

bool close(double value, double expected) {
  return std::abs(value - expected) < 1e-6;
}

}  // namespace

TEST_CASE("corrections are ordered by chance over cost with the run in the cost") {
  for (const std::string id : {"pc-order", "pc-order-test-10"}) {
    const json entry = example(id);
    CAPTURE(id);
    const plan::Situation situation = orders(entry.at("given"));
    const plan::Tables tables = plan::make_tables(situation);
    const plan::Left all(situation.corrections.size(), 1);
    const double cost = plan::Leaf(tables)(tables.start, tables.start_on, all).cost;
    CHECK(close(cost, entry.at("answer").at("expected_cost")));
    CHECK(order_of_leaf(situation) == entry.at("answer").at("order").get<plan::CauseSet>());
  }
}

TEST_CASE("with two faults the search finds the order that chance over cost misses") {
  const json entry = example("odds-order");
  const double p = entry.at("given").at("prior").at(0);
  const double q = entry.at("given").at("prior").at(1);
  const double bad = 1 - (1 - p) * (1 - q);
  plan::Situation situation = plan::test::one_cause({p * (1 - q) / bad, (1 - p) * q / bad},
                                                    numbers(entry.at("given").at("cost")), 0);
  situation.hypotheses.push_back({{0, 1}, p * q / bad});
  const plan::Tables tables = plan::make_tables(situation);
  const plan::Rest rest = plan::Leaf(tables)(tables.start, tables.start_on, {1, 1});
  CHECK(rest.first == plan::Move{plan::MoveKind::correction, 1});
  CHECK(std::abs(rest.cost - entry.at("answer").at("first_1").get<double>()) < 1e-5);
  const plan::Proposal best = answer_to(situation).proposals.at(0);
  CHECK(best.move == plan::Move{plan::MoveKind::correction, 0});
  CHECK(std::abs(best.expected_cost - entry.at("answer").at("first_0").get<double>()) < 1e-5);
}

TEST_CASE("two corrections are done before one run exactly when that is cheaper") {
  for (const std::string id : {"when-to-test-5", "when-to-test-12", "when-to-test-20"}) {
    const json entry = example(id);
    CAPTURE(id);
    const double each = entry.at("answer").at("test_after_each");
    const double both = entry.at("answer").at("both_then_test");
    const plan::Answer answer = answer_to(orders(entry.at("given")));
    CHECK(close(answer.proposals.at(0).expected_cost, std::min(each, both)));
    CHECK(close(answer.cost_without_looking, std::min(each, both)));
  }
}

TEST_CASE("a check is worth what the better order after it saves") {
  const json entry = example("check-then-order");
  const json& check = entry.at("given").at("check");
  plan::Situation situation = orders(entry.at("given"));
  situation.checks = {plan::test::yes_or_no(check.at("cost"), numbers(check.at("p_abnormal")), 0)};
  const plan::Answer answer = answer_to(situation);
  const plan::Proposal& best = answer.proposals.at(0);
  CHECK(answer.verdict == plan::Verdict::look);
  CHECK(best.move == plan::Move{plan::MoveKind::check, 0});
  CHECK(close(best.expected_cost, entry.at("answer").at("with_check")));
  CHECK(close(answer.cost_without_looking, entry.at("answer").at("without")));
  CHECK(close(best.saving_over_not_looking, entry.at("answer").at("saving")));
}

TEST_CASE("a check after which the same plan is best is not proposed at any price") {
  const json entry = example("idle-check");
  const json& check = entry.at("given").at("check");
  for (const double cost : {check.at("cost").get<double>(), 0.0}) {
    plan::Situation situation = orders(entry.at("given"));
    situation.checks = {plan::test::yes_or_no(cost, numbers(check.at("p_abnormal")), 0.5)};
    const plan::Answer answer = answer_to(situation);
    CHECK(answer.verdict == plan::Verdict::enough);
    for (const plan::Proposal& proposal : answer.proposals)
      CHECK(proposal.move.kind != plan::MoveKind::check);
  }
}

TEST_CASE("whole small problems are solved to their optimum") {
  for (const std::string id : {"cover-sharing", "cover-cheap", "two-check-trap", "stop-or-look-60",
                               "stop-or-look-90", "stop-or-look-150", "test-postponed"}) {
    const json entry = example(id);
    CAPTURE(id);
    const plan::Situation situation = plan::test::read_fixture(entry.at("given")).situation;
    const double optimum = entry.at("answer").at("optimal_cost");
    const plan::Proposal best = answer_to(situation).proposals.at(0);
    const json& firsts = entry.at("answer").at("first_move_costs");
    CHECK(close(firsts.at(plan::test::written(best.move)), optimum));
    CHECK(best.expected_cost > optimum - 1e-6);
    CHECK(close(plan::test::cost_of_following(situation, plan::test::planner(true)), optimum));
  }
}

TEST_CASE("one step alone walks into the trap of two checks that only pay together") {
  const json entry = example("two-check-trap");
  const plan::Situation situation = plan::test::read_fixture(entry.at("given")).situation;
  CHECK(close(plan::test::cost_of_following(situation, plan::test::planner(false)),
              entry.at("answer").at("first_move_costs").at("correction 0")));
}
