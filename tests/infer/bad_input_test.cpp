// What is refused, word for word.
#include "core/infer/answer.hpp"
#include "tests/infer/build_network.hpp"

#include <doctest/doctest.h>

#include <functional>
#include <limits>

namespace {

using soot::infer::Curve;
using soot::infer::Effect;
using soot::infer::Evidence;
using soot::infer::Network;
using soot::infer::Scope;
using soot::tests::add_cause;
using soot::tests::add_symptom;
using soot::tests::exactly;
using soot::tests::one_history;
using soot::tests::saw;

Network sound() {
  Network network = one_history(4);
  network.terms = {"late"};
  add_cause(network, "gear", Scope::engine, 0.1, {Effect{0, {10}, {1}, {}}});
  add_cause(network, "lifter", Scope::cylinder, 0.1, {Effect{0, {3}, {1}, {}}});
  add_symptom(network, "smoke", Scope::engine, 0.1, {{0, 0.5}});
  network.quantities.push_back({"depth", Scope::cylinder, 29, 0.1, {{0, Curve(0.1)}}});
  return network;
}

std::string fault_after(const std::function<void(Network&)>& spoil) {
  Network network = sound();
  spoil(network);
  const soot::Problems problems = faults_of(network);
  REQUIRE(problems.size() == 1);
  CHECK(problems[0].kind == soot::Kind::data);
  CHECK_FALSE(soot::infer::posterior(network, {}));
  return problems[0].text;
}

std::string fault_of(const Evidence& evidence) {
  const soot::Problems problems = faults_of(sound(), evidence);
  REQUIRE(problems.size() == 1);
  CHECK_FALSE(soot::infer::posterior(sound(), evidence));
  return problems[0].text;
}

const double no_number = std::numeric_limits<double>::quiet_NaN();

}  // namespace

TEST_CASE("a sound network has no faults") {
  CHECK(faults_of(sound()).empty());
}

TEST_CASE("faults of a network") {
  CHECK(fault_after([](Network& n) { n.history_prior = {0.9}; }) ==
        "history priors sum to 0.9 (expected 1)");
  CHECK(fault_after([](Network& n) { n.cylinders = 0; }) == "0 cylinders (expected at least 1)");
  CHECK(fault_after([](Network& n) { n.causes[0].prior = {{1.5}}; }) ==
        "cause gear: prior: 1.5 (expected a number from 0 to 1)");
  CHECK(fault_after([](Network& n) { n.causes[0].prior = {{no_number}}; }) ==
        "cause gear: prior: nan (expected a number from 0 to 1)");
  CHECK(fault_after([](Network& n) {
          n.causes[0].prior = {{0.1, 0.1}};
        }) == "cause gear: prior: 2 numbers (expected one a grade: 1)");
  CHECK(fault_after([](Network& n) { n.causes[0].prior.clear(); }) ==
        "cause gear: priors for 0 histories (expected 1)");
  CHECK(fault_after([](Network& n) { n.causes[0].effects[0].term = 7; }) ==
        "cause gear: effect on term 7 (expected below 1)");
  CHECK(fault_after([](Network& n) { n.causes[0].effects[0].sd = {-1}; }) ==
        "cause gear: effect on late: sd -1 (expected 0 or more)");
  CHECK(fault_after([](Network& n) { n.causes[0].effects[0].mean = {no_number}; }) ==
        "cause gear: effect on late: mean nan (expected a finite number)");
  CHECK(
      fault_after([](Network& n) { n.causes[1].effects[0].scatter = {0.1}; }) ==
      "cause lifter: effect on late: scatter of a cylinder's cause (expected of engine-wide causes "
      "only)");
  CHECK(fault_after([](Network& n) { n.causes[0].effects.push_back(n.causes[0].effects[0]); }) ==
        "cause gear: two effects on one term (expected one a term)");
  CHECK(fault_after([](Network& n) { n.symptoms[0].leak = 1; }) ==
        "symptom smoke: leak 1 (expected from 0 to below 1)");
  CHECK(fault_after([](Network& n) { n.symptoms[0].missed = 2; }) ==
        "symptom smoke: missed 2 (expected a number from 0 to 1)");
  CHECK(fault_after([](Network& n) { n.symptoms[0].links[0].cause = 9; }) ==
        "symptom smoke: link to cause 9 (expected below 2)");
  CHECK(fault_after([](Network& n) { n.symptoms[0].links[0].strength = {-0.1}; }) ==
        "symptom smoke: strength -0.1 of gear (expected a number from 0 to 1)");
  CHECK(fault_after([](Network& n) { n.symptoms[0].links.push_back(n.symptoms[0].links[0]); }) ==
        "symptom smoke: two links to gear (expected one a cause)");
  CHECK(fault_after([](Network& n) { n.quantities[0].spread = -1; }) ==
        "quantity depth: spread -1 (expected 0 or more)");
  CHECK(fault_after([](Network& n) { n.quantities[0].responses[0].term = 3; }) ==
        "quantity depth: response to term 3 (expected below 1)");
  CHECK(fault_after([](Network& n) {
          n.quantities[0].responses[0].shift = Curve({{0, 0}, {2, 1}, {1, 2}});
        }) ==
        "quantity depth: response to late: curve goes from 2 to 1 (expected strictly rising "
        "magnitudes)");
  CHECK(fault_after([](Network& n) {
          n.instrument_faults = {{0, 0.1, 0, 0}};
        }) == "instrument of depth: sd 0 (expected above 0)");
  CHECK(fault_after([](Network& n) {
          n.instrument_faults = {{0, 0.6, 0, 1}, {0, 0.6, 0, 1}};
        }) == "priors of wrong instruments sum to 1.2 (expected at most 1)");
  CHECK(fault_after([](Network& n) {
          n.instance_priors = {{1, 5, {0.1}}};
        }) == "prior of lifter in cylinder 5 (expected 1 to 4)");
  CHECK(fault_after([](Network& n) {
          n.instance_priors = {{0, 1, {0.1}}};
        }) == "prior of gear in cylinder 1 (expected no cylinder: it is engine-wide)");
}

TEST_CASE("faults of evidence") {
  CHECK(fault_of({5, {}, {}}) == "history 5 (expected below 1)");
  CHECK(fault_of({{}, {saw(3)}, {}}) == "finding of symptom 3 (expected below 1)");
  CHECK(fault_of({{}, {saw(0, true, 2)}, {}}) ==
        "finding smoke in cylinder 2 (expected no cylinder: it is of the whole engine)");
  CHECK(fault_of({{}, {{0, 0, true, soot::infer::Unsure{0.6, 0.4}}}, {}}) ==
        "finding smoke: unsure with missed 0.6 and imagined 0.4 (expected a sum below 1)");
  CHECK(fault_of({{}, {}, {exactly(4, 1, 29, 0.1)}}) == "reading of quantity 4 (expected below 1)");
  CHECK(fault_of({{}, {}, {exactly(0, 7, 29, 0.1)}}) ==
        "reading depth in cylinder 7 (expected 1 to 4)");
  CHECK(fault_of({{}, {}, {exactly(0, 1, 29, 0)}}) == "reading depth: sd 0 (expected above 0)");
  CHECK(fault_of({{}, {}, {{0, 1, 30, 29, 0.1, 0}}}) ==
        "reading depth from 30 to 29 (expected two bounds in rising order, or one finite value)");
  CHECK(fault_of({{}, {}, {exactly(0, 1, no_number, 0.1)}}) ==
        "reading depth from nan to nan (expected two bounds in rising order, or one finite value)");
}

TEST_CASE("a reading that no number can hold against the engine is impossible evidence") {
  for (const double tolerance : {0.0, 1e-4}) {
    soot::infer::Limits limits;
    limits.tolerance = tolerance;
    const auto answer =
        soot::infer::posterior(sound(), {{}, {}, {exactly(0, 1, 1e200, 1)}}, limits);
    REQUIRE(answer);
    CHECK(answer->impossible);
  }
}
