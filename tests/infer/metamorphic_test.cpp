// Changes of the question whose effect on the answer is known without computing it.
#include "tests/infer/ask.hpp"
#include "tests/infer/build_network.hpp"
#include "tests/infer/random_model.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

namespace {

using soot::infer::Curve;
using soot::infer::Effect;
using soot::infer::Evidence;
using soot::infer::Network;
using soot::infer::Posterior;
using soot::infer::Scope;
using soot::tests::add_cause;
using soot::tests::add_symptom;
using soot::tests::ask;
using soot::tests::exactly;
using soot::tests::one_history;
using soot::tests::random_model;
using soot::tests::RandomModel;
using soot::tests::saw;

bool close(double a, double b) {
  return std::abs(a - b) <= 1e-10 * std::max({std::abs(a), std::abs(b), 1e-14});
}

const soot::infer::Instance& instance(const Posterior& posterior, std::size_t cause, int cylinder) {
  return *std::find_if(
      posterior.instances.begin(), posterior.instances.end(),
      [&](const auto& one) { return one.cause == cause && one.cylinder == cylinder; });
}

void check_same(const Posterior& a, const Posterior& b) {
  REQUIRE(a.impossible == b.impossible);
  if (a.impossible) return;
  CHECK(std::abs(a.log_evidence - b.log_evidence) < 1e-10);
  for (std::size_t i = 0; i < a.instances.size(); ++i)
    for (std::size_t g = 0; g < a.instances[i].grade.size(); ++g)
      CHECK(close(a.instances[i].grade[g], b.instances[i].grade[g]));
  for (std::size_t cause = 0; cause < a.any.size(); ++cause)
    CHECK(close(a.any[cause], b.any[cause]));
}

}  // namespace

TEST_CASE("renaming cylinders permutes the answer") {
  for (std::uint64_t seed = 5000; seed < 5025; ++seed) {
    CAPTURE(seed);
    RandomModel model = random_model(seed);
    const Posterior before = ask(model.network, model.evidence);
    const int cylinders = model.network.cylinders;
    const auto renamed = [cylinders](int c) { return c == 0 ? 0 : cylinders + 1 - c; };
    for (auto& finding : model.evidence.findings)
      finding.cylinder = renamed(finding.cylinder);
    for (auto& reading : model.evidence.readings)
      reading.cylinder = renamed(reading.cylinder);
    for (auto& prior : model.network.instance_priors)
      prior.cylinder = renamed(prior.cylinder);
    Posterior after = ask(model.network, model.evidence);
    if (!after.impossible) {
      std::vector<soot::infer::Instance> permuted;
      for (const auto& one : before.instances)
        permuted.push_back(instance(after, one.cause, renamed(one.cylinder)));
      after.instances = permuted;
    }
    check_same(before, after);
  }
}

TEST_CASE("the order of evidence does not matter") {
  for (std::uint64_t seed = 5100; seed < 5125; ++seed) {
    CAPTURE(seed);
    RandomModel model = random_model(seed);
    const Posterior before = ask(model.network, model.evidence);
    std::reverse(model.evidence.findings.begin(), model.evidence.findings.end());
    std::reverse(model.evidence.readings.begin(), model.evidence.readings.end());
    check_same(before, ask(model.network, model.evidence));
  }
}

TEST_CASE("a finding entered and taken back leaves every bit as it was") {
  for (std::uint64_t seed = 5200; seed < 5215; ++seed) {
    RandomModel model = random_model(seed);
    if (model.network.symptoms.empty()) continue;
    const Posterior before = ask(model.network, model.evidence);
    const bool engine = model.network.symptoms[0].scope == Scope::engine;
    model.evidence.findings.push_back(saw(0, true, engine ? 0 : 1));
    ask(model.network, model.evidence);
    model.evidence.findings.pop_back();
    const Posterior after = ask(model.network, model.evidence);
    CHECK(before.log_evidence == after.log_evidence);
    for (std::size_t i = 0; i < before.instances.size(); ++i)
      CHECK(before.instances[i].grade == after.instances[i].grade);
    CHECK(before.any == after.any);
  }
}

TEST_CASE("a cause with strength 0 and no effects keeps its prior") {
  Network network = one_history(2);
  const std::size_t real = add_cause(network, "real", Scope::engine, 0.1);
  const std::size_t idle = add_cause(network, "idle", Scope::cylinder, 0.03);
  add_symptom(network, "s", Scope::engine, 0.05, {{real, 0.7}, {idle, 0}});
  const Posterior posterior = ask(network, {{}, {saw(0)}, {}});
  CHECK(instance(posterior, idle, 1).grade[1] == 0.03);
  CHECK(posterior.any[idle] == doctest::Approx(1 - 0.97 * 0.97).epsilon(1e-14));
  CHECK(posterior.any[real] > 0.1);
}

TEST_CASE("a grade split in two alike splits its probability") {
  for (std::uint64_t seed = 5300; seed < 5325; ++seed) {
    CAPTURE(seed);
    RandomModel model = random_model(seed);
    if (model.network.causes.empty() || model.network.causes[0].grades == 4) continue;
    const Posterior whole = ask(model.network, model.evidence);
    if (whole.impossible) continue;
    const auto split = [](std::vector<double>& grades, double share) {
      grades.push_back(grades[0] * (1 - share));
      grades[0] *= share;
    };
    for (auto& row : model.network.causes[0].prior)
      split(row, 0.3);
    for (auto& own : model.network.instance_priors)
      if (own.cause == 0) split(own.grade, 0.3);
    ++model.network.causes[0].grades;
    for (auto& effect : model.network.causes[0].effects) {
      effect.mean.push_back(effect.mean[0]);
      effect.sd.push_back(effect.sd[0]);
      if (!effect.scatter.empty()) effect.scatter.push_back(effect.scatter[0]);
    }
    for (auto& symptom : model.network.symptoms)
      for (auto& link : symptom.links)
        if (link.cause == 0) link.strength.push_back(link.strength[0]);
    const Posterior parted = ask(model.network, model.evidence);
    for (const auto& one : whole.instances) {
      if (one.cause != 0) continue;
      const auto& now = instance(parted, 0, one.cylinder);
      CHECK(close(now.grade[1], 0.3 * one.grade[1]));
      CHECK(close(now.grade.back(), 0.7 * one.grade[1]));
    }
  }
}

TEST_CASE("a contradiction is impossible and not a number gone wrong") {
  Network network = one_history();
  add_cause(network, "c", Scope::engine, 0.1);
  const std::size_t sure = add_symptom(network, "sure", Scope::engine, 0, {{0, 0.5}});
  const std::size_t other = add_symptom(network, "other", Scope::engine, 0.1, {{0, 1}});
  const Evidence both{{}, {saw(sure), saw(sure, false)}, {}};
  CHECK(ask(network, both).impossible);
  CHECK(std::isinf(ask(network, both).log_evidence));
  // Only the cause explains the first, and the cause would have brought the second for certain.
  const Evidence apart{{}, {saw(sure), saw(other, false)}, {}};
  CHECK(ask(network, apart).impossible);
  const auto explanations = soot::infer::explanations(network, apart, {});
  REQUIRE(explanations);
  CHECK(explanations->empty());
  const auto worst = soot::infer::worst_fit(network, apart);
  REQUIRE(worst);
  REQUIRE(worst->has_value());
  CHECK((*worst)->probability == 0);
  CHECK_FALSE(soot::infer::weights(network, apart, 0, 0, {}));
  CHECK_FALSE(soot::infer::what_ifs(network, apart, {{{saw(other)}, {}}}));
}

TEST_CASE("a tooth out is common to all cylinders and not drawn for each") {
  Network common = one_history(6);
  common.terms = {"late"};
  const std::size_t tooth =
      add_cause(common, "gear-tooth-out", Scope::engine, 0.02, {Effect{0, {10}, {4}, {}}});
  const std::size_t lifter =
      add_cause(common, "lifter-one", Scope::cylinder, 0.05, {Effect{0, {8}, {2}, {}}});
  common.quantities.push_back({"depth", Scope::cylinder, 29, 0.05, {{0, soot::infer::Curve(0.1)}}});
  Network each = common;  // the wrong model: a number of its own for every cylinder
  each.causes[tooth].effects[0] = {0, {10}, {0}, {4}};

  Evidence evidence;
  const double late[] = {29.93, 29.97, 29.91, 29.95, 29.99, 29.94};
  for (int c = 1; c <= 6; ++c)
    evidence.readings.push_back(exactly(0, c, late[c - 1], 0.02));
  CHECK(ask(common, evidence).any[tooth] > 0.99);
  // Six numbers that agree by chance are worth far less than one number.
  CHECK(ask(common, evidence).log_evidence > ask(each, evidence).log_evidence + 5);

  // Five late and one right is no tooth: no common number fits. Drawn for each, it would pass.
  evidence.readings[5].lower = evidence.readings[5].upper = 29.0;
  CHECK(ask(common, evidence).any[tooth] < 0.01);
  CHECK(instance(ask(common, evidence), lifter, 1).present() > 0.99);
  CHECK(ask(each, evidence).any[tooth] > 0.9);
}

// The readings speak against the gear by far more than the tolerance, the complaint for it alone.
TEST_CASE("the tolerance does not rule out the only cause of what was seen") {
  Network network = one_history(2);
  network.terms = {"late", "worn"};
  add_cause(network, "gear", Scope::engine, 1e-4, {Effect{0, {10}, {1}, {}}});
  add_cause(network, "mark", Scope::engine, 0.05, {Effect{0, {1}, {2}, {}}});
  add_cause(network, "lifter", Scope::cylinder, 0.1, {Effect{0, {3}, {1}, {}}});
  const std::size_t kick = add_symptom(network, "kick", Scope::engine, 1e-7, {{0, 0.9}});
  network.quantities.push_back({"depth", Scope::cylinder, 29, 0.3, {{0, Curve(0.1)}}});
  const Evidence evidence{
      {}, {saw(kick)}, {exactly(0, 1, 29.12, 0.05), exactly(0, 2, 29.08, 0.05)}};
  const auto whole = soot::infer::posterior(network, evidence);
  REQUIRE(whole);
  REQUIRE(whole->instances[0].present() > 0.1);
  soot::infer::Limits coarse;
  coarse.tolerance = 0.1;
  const auto given_up = soot::infer::posterior(network, evidence, coarse);
  REQUIRE(given_up);
  CHECK(given_up->instances[0].present() > 0);
}
