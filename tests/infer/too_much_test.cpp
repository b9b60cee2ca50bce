// Where an exact answer is too much work: said before it is begun, and estimated instead.
#include "core/infer/answer.hpp"
#include "core/infer/dice.hpp"
#include "tests/bench/scale_model.hpp"
#include "tests/infer/build_network.hpp"
#include "tests/infer/random_model.hpp"

#include <doctest/doctest.h>

#include <cmath>

using namespace soot::infer;
using namespace soot::tests;

namespace {

void check_is_sound(const Posterior& answer) {
  CHECK(std::isnan(answer.log_evidence));
  for (const Instance& instance : answer.instances) {
    double sum = 0;
    for (const double grade : instance.grade) {
      CHECK(grade >= 0);
      sum += grade;
    }
    CHECK(std::abs(sum - 1) < 1e-9);
  }
}

}  // namespace

TEST_CASE("forty present symptoms on six cylinders are estimated") {
  const ScaleModel model = scale_model({.present = 40, .absent = 10}, 1);
  const auto answer = posterior(model.network, model.evidence);
  REQUIRE(answer);
  REQUIRE(answer->sampled);
  CHECK(answer->sampled->starts_with("too much work: 40 findings that need explaining"));
  CHECK(answer->standard_error > 0);
  check_is_sound(*answer);
  const auto again = posterior(model.network, model.evidence);
  REQUIRE(again);
  CHECK(again->any == answer->any);  // seeded
  const auto explained = explanations(model.network, model.evidence, {3, {}});
  REQUIRE(explained);
  CHECK(explained->size() == 3);
}

TEST_CASE("two hundred readings get an answer") {
  const ScaleModel model = scale_model({.readings = 200, .instruments = true}, 2);
  const auto answer = posterior(model.network, model.evidence, {.tolerance = 1e-6});
  REQUIRE(answer);
  CHECK_FALSE(answer->impossible);
}

TEST_CASE("a quantity of the engine that hears many cylinders causes is estimated") {
  Network network = one_history(6);
  network.terms = {"loss"};
  for (int cause = 0; cause < 8; ++cause)
    add_cause(network, "c" + std::to_string(cause), Scope::cylinder, 0.01,
              {Effect{0, {20}, {5}, {}}});
  network.quantities.push_back({"load-speed", Scope::engine, 600, 8, {{0, Curve(-1.0)}}});
  const auto answer = posterior(network, {{}, {}, {exactly(0, 0, 560, 3)}});
  REQUIRE(answer);
  REQUIRE(answer->sampled);
  check_is_sound(*answer);
  // All 48 are alike: the chances may differ by the walks' own error only.
  double least = 1, most = 0;
  for (const Instance& instance : answer->instances) {
    least = std::min(least, instance.grade[1]);
    most = std::max(most, instance.grade[1]);
  }
  CHECK(most - least < 8 * answer->standard_error + 0.01);
}

TEST_CASE("an estimate agrees with the exact answer") {
  int compared = 0;
  for (std::uint64_t seed = 1; seed <= 20; ++seed) {
    const RandomModel model = random_model(seed);
    const auto exact = posterior(model.network, model.evidence);
    const auto estimate = posterior(model.network, model.evidence, {.log2_work = 0});
    REQUIRE(exact);
    REQUIRE(estimate);
    bool has_curve = false;  // a curve is taken straight where it stands
    for (const Quantity& quantity : model.network.quantities)
      for (const Response& response : quantity.responses)
        has_curve = has_curve || !response.shift.is_straight();
    if (!estimate->sampled || exact->impossible || has_curve) continue;
    CAPTURE(seed);
    ++compared;
    for (std::size_t i = 0; i < exact->instances.size(); ++i)
      CHECK(std::abs(exact->instances[i].present() - estimate->instances[i].present()) <
            6 * estimate->standard_error + 0.005);
    for (std::size_t h = 0; h < exact->history.size(); ++h)
      CHECK(std::abs(exact->history[h] - estimate->history[h]) <
            6 * estimate->standard_error + 0.005);
  }
  CHECK(compared > 8);
}
