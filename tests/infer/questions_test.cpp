// The smaller questions: worst fit, weights over the cylinders, forecasts, curves.
#include "core/infer/answer.hpp"
#include "core/infer/interval.hpp"
#include "tests/bench/scale_model.hpp"
#include "tests/infer/build_network.hpp"
#include "tests/infer/oracle.hpp"
#include "tests/near.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <limits>

namespace {

using soot::infer::Curve;
using soot::infer::Effect;
using soot::infer::Evidence;
using soot::infer::Network;
using soot::infer::Scope;
using soot::test::near;
using soot::tests::add_cause;
using soot::tests::add_symptom;
using soot::tests::ask_oracle;
using soot::tests::exactly;
using soot::tests::one_history;
using soot::tests::OracleAnswer;
using soot::tests::saw;
using soot::tests::scale_model;
using soot::tests::ScaleModel;

doctest::Approx nearly(double value) {
  return doctest::Approx(value).epsilon(1e-9);
}

/// Two cylinders, an engine-wide cause and a cylinder's cause, one symptom, one quantity.
Network small() {
  Network network = one_history(2);
  network.terms = {"late"};
  add_cause(network, "gear", Scope::engine, 0.05, {Effect{0, {4}, {1}, {}}});
  add_cause(network, "lifter", Scope::cylinder, 0.08, {Effect{0, {3}, {2}, {}}});
  add_symptom(network, "smoke", Scope::engine, 0.04, {{0, 0.7}, {1, 0.4}});
  network.quantities.push_back({"depth", Scope::cylinder, 29, 0.1, {{0, Curve(0.2)}}});
  return network;
}

}  // namespace

TEST_CASE("the worst fit is the least expected piece") {
  const Network network = small();
  Evidence evidence{{}, {saw(0, false)}, {exactly(0, 1, 29.75, 0.1), exactly(0, 2, 29.02, 0.1)}};
  const auto worst = soot::infer::worst_fit(network, evidence);
  REQUIRE(worst);
  REQUIRE(worst->has_value());
  CHECK((*worst)->is_reading);
  CHECK((*worst)->index == 0);
  // Upper tail given the rest, twice, from the oracle.
  const double infinity = std::numeric_limits<double>::infinity();
  Evidence rest = evidence;
  rest.readings.erase(rest.readings.begin());
  Evidence above = evidence;
  above.readings[0].upper = infinity;
  const double tail =
      std::exp(ask_oracle(network, above).log_evidence - ask_oracle(network, rest).log_evidence);
  CHECK((*worst)->probability == nearly(2 * tail));
  const auto nothing = soot::infer::worst_fit(network, {});
  REQUIRE(nothing);
  CHECK_FALSE(nothing->has_value());
}

TEST_CASE("weights of a cause in any cylinder") {
  const Network network = small();
  const Evidence evidence{{}, {saw(0)}, {exactly(0, 1, 29.6, 0.1), exactly(0, 2, 29.05, 0.1)}};
  const auto weights =
      soot::infer::weights(network, evidence, 1, 0, soot::infer::pieces_of(evidence));
  REQUIRE(weights);
  const auto odds = [&](const Evidence& given) {
    const OracleAnswer answer = ask_oracle(network, given);
    return std::log(answer.any[1]) - std::log(answer.none[1]);
  };
  CHECK(weights->log_odds == nearly(odds(evidence)));
  CHECK(weights->prior_log_odds == nearly(std::log(1 - 0.92 * 0.92) - 2 * std::log(0.92)));
  Evidence without = evidence;
  without.readings.erase(without.readings.begin());
  CHECK(weights->pieces[1] == nearly(odds(evidence) - odds(without)));
  const auto refused = soot::infer::weights(network, evidence, 1, 3, {});
  REQUIRE_FALSE(refused);
  CHECK(refused.error()[0].text == "weights of lifter in cylinder 3 (expected 0 to 2)");
}

TEST_CASE("what ifs of a reading in bands add up to one") {
  const Network network = small();
  const Evidence evidence{{}, {saw(0)}, {exactly(0, 1, 29.6, 0.1)}};
  const double infinity = std::numeric_limits<double>::infinity();
  const double cuts[] = {-infinity, 28.9, 29.1, 29.4, 30, infinity};
  std::vector<soot::infer::WhatIf> bands;
  for (std::size_t i = 0; i + 1 < std::size(cuts); ++i)
    bands.push_back({{}, {{0, 2, cuts[i], cuts[i + 1], 0.1, 0}}});
  const auto outcomes = soot::infer::what_ifs(network, evidence, bands);
  REQUIRE(outcomes);
  double sum = 0;
  double gear = 0;
  for (const auto& outcome : *outcomes) {
    sum += outcome.probability;
    gear += outcome.probability * outcome.posterior.any[0];
  }
  CHECK(sum == nearly(1));
  CHECK(gear == nearly(soot::infer::posterior(network, evidence)->any[0]));
}

TEST_CASE("forecasts of a reading") {
  Network network = small();
  const auto sound = soot::infer::expected_reading(network, 0, 1, {});
  CHECK(sound.mean == nearly(29));
  CHECK(sound.sd == nearly(0.1));
  const auto both = soot::infer::expected_reading(network, 0, 1, {{0, 0, 1}, {1, 1, 1}, {1, 2, 1}});
  CHECK(both.mean == nearly(29 + 0.2 * 7));
  CHECK(both.sd == nearly(std::sqrt(0.01 + 0.04 * 5)));
  network.causes[0].effects[0].scatter = {0.5};
  CHECK(soot::infer::expected_reading(network, 0, 1, {{0, 0, 1}}).sd ==
        nearly(std::sqrt(0.01 + 0.04 * 1.25)));
}

TEST_CASE("curves go through their points and on past their ends") {
  const Curve curve({{-10, -1}, {0, 0}, {10, 3}});
  CHECK(curve.at(-10) == nearly(-1));
  CHECK(curve.at(5) == nearly(1.5));
  CHECK(curve.at(-20) == nearly(-2));
  CHECK(curve.at(20) == nearly(6));
  CHECK(curve.slope_at(-3) == nearly(0.1));
  CHECK(curve.slope_at(3) == nearly(0.3));
  CHECK(Curve(0.5).at(4) == nearly(2));
}

TEST_CASE("intervals of the normal keep their digits") {
  // Narrow: density times width, with the second-order term; far out: bounded by Mills' ratio
  // (x/(1 + x^2) < P(N > x)/density < 1/x). Feller, An Introduction to Probability Theory 1, VII.1.
  const double root = std::sqrt(2 * 3.14159265358979323846);
  CHECK(std::exp(soot::infer::log_interval(1, 1 + 1e-9)) == nearly(1e-9 * std::exp(-0.5) / root));
  for (const double x : {29.9, 30.1, 60.0, 1e4}) {
    const double log_ratio = soot::infer::log_interval(x, std::numeric_limits<double>::infinity()) +
                             0.5 * x * x + std::log(root);
    CHECK(log_ratio < -std::log(x) + 1e-8);
    CHECK(log_ratio > std::log(x) - std::log1p(x * x) - 1e-8);
  }
  CHECK(std::exp(soot::infer::log_interval(-1, 1)) == nearly(0.682689492137));  // from memory
}

TEST_CASE("at the products size every cause is there or not") {
  // Groups of this size are dealt out in slices. Both chances are sums of positive parts.
  const ScaleModel model = scale_model({.known_history = false, .instruments = true}, 1);
  const auto answer = soot::infer::posterior(model.network, model.evidence, {.tolerance = 1e-8});
  REQUIRE(answer);
  REQUIRE_FALSE(answer->sampled);
  for (std::size_t cause = 0; cause < answer->any.size(); ++cause) {
    CAPTURE(cause);
    CHECK(answer->any[cause] + answer->none[cause] == near(1, 1e-12));
  }
  for (const soot::infer::Instance& instance : answer->instances) {
    CAPTURE(instance.cause);
    CHECK(instance.grade[0] + instance.present() == near(1, 1e-12));
    CHECK(instance.present() <= answer->any[instance.cause] * (1 + 1e-12));
  }
}
