// Evidence that is sound but strange: contradictions, nothing at all, nothing but absences. And one
// that is not: instruments without error or with nothing else.
#include "core/infer/answer.hpp"
#include "tests/infer/build_network.hpp"
#include "tests/near.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <limits>

using namespace soot::infer;
using namespace soot::tests;
using soot::test::near;

namespace {

/// A lifter moves depth and spill angle; each has an instrument.
Network two_quantities() {
  Network network = one_history(2);
  network.terms = {"low"};
  add_cause(network, "lifter", Scope::cylinder, 0.02, {Effect{0, {0.3}, {0.15}, {}}});
  add_symptom(network, "rough", Scope::cylinder, 0.05, {{0, 0.6}});
  network.quantities.push_back({"depth", Scope::cylinder, 29, 0.03, {{0, Curve(1.0)}}});
  network.quantities.push_back({"spill", Scope::cylinder, 15, 0.3, {{0, Curve(10.0)}}});
  network.instrument_faults.push_back({0, 0.004, 0, 0.5});
  network.instrument_faults.push_back({1, 0.004, 0, 20});
  return network;
}

}  // namespace

TEST_CASE("repeats fifty deviations apart are an answer with the contradiction named") {
  const Network network = two_quantities();
  const Evidence evidence{
      {}, {saw(0, true, 1)}, {exactly(0, 1, 29.0, 0.02), exactly(0, 1, 30.0, 0.02)}};
  const auto answer = posterior(network, evidence);
  REQUIRE(answer);
  CHECK_FALSE(answer->impossible);
  CHECK(std::isfinite(answer->log_evidence));
  // Of the repeats' own difference: N(1; 0, 2 0.02^2), whatever else is wrong.
  CHECK(answer->log_evidence < -600);
  const auto worst = worst_fit(network, evidence);
  REQUIRE(worst);
  REQUIRE(worst->has_value());
  CHECK((*worst)->is_reading);
  CHECK((*worst)->probability < 1e-12);
}

TEST_CASE("two quantities fifty deviations apart let the instrument win") {
  const Network network = two_quantities();
  // The depths are right; both spill angles are off by fifty times their spread and error.
  const Evidence evidence{{},
                          {},
                          {exactly(0, 1, 29.0, 0.02), exactly(0, 2, 29.0, 0.02),
                           exactly(1, 1, 43.0, 0.5), exactly(1, 2, 43.2, 0.5)}};
  const auto answer = posterior(network, evidence);
  REQUIRE(answer);
  CHECK(answer->instrument_wrong[1] > 0.99);
}

TEST_CASE("nothing seen and nothing but absences") {
  const Network network = two_quantities();
  const auto nothing = posterior(network, {});
  REQUIRE(nothing);
  CHECK(nothing->instances[0].grade[1] == near(0.02));
  CHECK(nothing->log_evidence + 1 == near(1));
  const auto absent = posterior(network, {{}, {saw(0, false, 1), saw(0, false, 2)}, {}});
  REQUIRE(absent);
  CHECK(absent->instances[0].grade[1] == near(0.02 * 0.4 / (0.02 * 0.4 + 0.98)));
}

TEST_CASE("an instrument has an error and not an endless one") {
  const Network network = two_quantities();
  for (const double sd : {0.0, 1e-300, std::numeric_limits<double>::infinity()}) {
    const auto answer = posterior(network, {{}, {}, {exactly(0, 1, 29.0, sd)}});
    REQUIRE_FALSE(answer);
    CHECK(answer.error()[0].text == fmt::format("reading depth: sd {} (expected above 0)", sd));
  }
}

TEST_CASE("what ifs of looks agree with asking anew") {
  const Network network = two_quantities();
  const Evidence evidence{{}, {saw(0, true, 1)}, {exactly(0, 1, 29.2, 0.02)}};
  const auto outcomes =
      what_ifs(network, evidence, {{{saw(0, true, 2)}, {}}, {{saw(0, false, 2)}, {}}});
  REQUIRE(outcomes);
  CHECK((*outcomes)[0].probability + (*outcomes)[1].probability == near(1));
  for (const bool present : {true, false}) {
    Evidence after = evidence;
    after.findings.push_back(saw(0, present, 2));
    const auto anew = posterior(network, after);
    REQUIRE(anew);
    const Posterior& reused = (*outcomes)[present ? 0 : 1].posterior;
    CHECK(reused.log_evidence == near(anew->log_evidence));
    for (std::size_t i = 0; i < anew->instances.size(); ++i)
      CHECK(reused.instances[i].grade[1] == near(anew->instances[i].grade[1]));
    CHECK(reused.any[0] == near(anew->any[0]));
    REQUIRE(reused.not_listed.size() == anew->not_listed.size());
    for (std::size_t f = 0; f < anew->not_listed.size(); ++f) {
      REQUIRE(reused.not_listed[f].has_value() == anew->not_listed[f].has_value());
      if (anew->not_listed[f]) CHECK(*reused.not_listed[f] == near(*anew->not_listed[f]));
    }
  }
}

TEST_CASE("an order that hangs on one number says so") {
  Network network = one_history();
  add_cause(network, "common", Scope::engine, 0.030);
  add_cause(network, "less", Scope::engine, 0.022);
  add_cause(network, "rare", Scope::engine, 1e-5);
  add_symptom(network, "s", Scope::engine, 0.001, {{0, 0.5}, {1, 0.5}, {2, 0.5}});
  const Evidence evidence{{}, {saw(0)}, {}};
  const auto close = ranking(network, evidence, {1, {}}, StabilityQuery{});
  REQUIRE(close);
  REQUIRE(close->stability);
  CHECK(close->stability->stays_first < 1);
  CHECK(close->stability->stays_in_three == 1);
  REQUIRE_FALSE(close->stability->hinges.empty());
  CHECK(close->stability->hinges[0].cause == 0);
  network.causes[1].prior[0][0] = 1e-5;
  const auto clear = ranking(network, evidence, {1, {}}, StabilityQuery{});
  REQUIRE(clear);
  REQUIRE(clear->stability);
  CHECK(clear->stability->stays_first == 1);
  CHECK(clear->stability->hinges.empty());
}
