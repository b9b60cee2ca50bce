// The knowledge and a family's figures as a network: figures from the family's table, worked out
// here by hand beside each.
#include "core/infer/answer.hpp"
#include "core/workbench/evidence_builder.hpp"
#include "core/workbench/network_builder.hpp"
#include "tests/workbench/real_bench.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

using soot::Engine;
using soot::test::hagmoss;
using soot::test::JobMaker;

namespace {

soot::BuiltNetwork built_for(const Engine& engine) {
  auto built = build_network(engine, std::nullopt);
  REQUIRE_MESSAGE(built, (built ? "" : to_string(built.error())));
  return *built;
}

const soot::infer::Quantity& quantity(const soot::BuiltNetwork& built, const std::string& id) {
  const auto found = built.quantity_index.find(id);
  REQUIRE(found != built.quantity_index.end());
  return built.network.quantities[found->second];
}

// Mean of what a cause's grade adds to a term.
double effect_of(const soot::BuiltNetwork& built, const std::string& cause, const std::string& term,
                 std::size_t grade) {
  const auto found = built.cause_index.find(cause);
  REQUIRE(found != built.cause_index.end());
  for (const soot::infer::Effect& effect : built.network.causes[found->second].effects)
    if (built.network.terms[effect.term] == term) return effect.mean.at(grade);
  FAIL("no effect on " << term);
  return 0;
}

// Chance of a cause on a cylinder.
double chance(const Engine& engine, const JobMaker& maker, const std::string& cause, int cylinder) {
  const soot::BuiltNetwork built = built_for(engine);
  const auto evidence = build_evidence(engine, built, maker.job(), all_standing(maker.job()));
  const auto posterior = soot::infer::posterior(built.network, evidence.evidence);
  REQUIRE_MESSAGE(posterior, (posterior ? "" : to_string(posterior.error())));
  for (const soot::infer::Instance& instance : posterior->instances)
    if (built.network.causes[instance.cause].id == cause && instance.cylinder == cylinder)
      return instance.present();
  FAIL("no instance of " << cause);
  return 0;
}

}  // namespace

TEST_CASE("the network of an engine is sound and in the order of its knowledge") {
  const soot::BuiltNetwork built = built_for(hagmoss());
  CHECK(to_string(soot::infer::faults_of(built.network)) == "");
  CHECK(built.network.cylinders == 4);
  for (std::size_t i = 0; i < built.causes.size(); ++i)
    CHECK(built.network.causes[i].id == built.causes[i]->id);
  CHECK(built.cause_index.count("instrument-wrong") == 0);
  CHECK_FALSE(built.network.instrument_faults.empty());
}

TEST_CASE("nominal values come from the figures of the family") {
  const soot::BuiltNetwork built = built_for(hagmoss());
  CHECK(quantity(built, "lifter-depth").nominal == doctest::Approx(29.20));
  CHECK(quantity(built, "spill-angle").nominal == doctest::Approx(15));
  // 125 to 140 bar: the middle.
  CHECK(quantity(built, "nozzle-opening").nominal == doctest::Approx(132.5));
}

TEST_CASE("spread comes from tolerance and range") {
  const soot::BuiltNetwork built = built_for(hagmoss());
  // 29.20 mm within 0.05 mm: half of it. 125 to 140 bar: a quarter of the width.
  // Half the tolerance, the seat of the gauge and the crank set within half a degree.
  CHECK(quantity(built, "lifter-depth").spread ==
        doctest::Approx(std::sqrt((0.025 * 0.025 + (0.0127 * 0.0127 + 0.06 * 0.06) / 3))));
  CHECK(quantity(built, "nozzle-opening").spread == doctest::Approx(3.75));
}

TEST_CASE("a tooth is counted in degrees of the wheels of this family") {
  // 30 teeth on the crank: 12 degrees a tooth.
  const soot::BuiltNetwork built = built_for(hagmoss());
  CHECK(effect_of(built, "gear-tooth-out", "drive-late", 0) == doctest::Approx(12));
  CHECK(effect_of(built, "gear-tooth-out", "drive-late", 1) == doctest::Approx(-12));
}

TEST_CASE("a family without a figure still compares its cylinders") {
  Engine bare = hagmoss();
  for (const std::string figure : {"lifter-depth", "lifter-depth-base", "foot-at-closing"})
    bare.family.figures.erase(figure);
  const soot::Quantity& depth = get_id(bare.knowledge.quantities, "lifter-depth");
  REQUIRE_FALSE(nominal_of(bare, depth));
  const soot::BuiltNetwork built = built_for(bare);
  CHECK(built.network.causes.size() > built.causes.size());
  const JobMaker job = JobMaker{}
                           .history("just-rebuilt")
                           .gauge("lifter-depth", 1, "33.00 mm")
                           .gauge("lifter-depth", 2, "33.02 mm")
                           .gauge("lifter-depth", 3, "33.40 mm")
                           .gauge("lifter-depth", 4, "32.99 mm");
  CHECK(chance(bare, job, "lifter-one", 3) > 0.5);
  CHECK(chance(bare, job, "lifter-one", 1) < 0.1);
}

TEST_CASE("one deep lifter is told from a tooth by the pattern over the cylinders") {
  const JobMaker one = JobMaker{}
                           .history("just-rebuilt")
                           .gauge("lifter-depth", 1, "29.20 mm")
                           .gauge("lifter-depth", 2, "29.21 mm")
                           .gauge("lifter-depth", 3, "29.45 mm")
                           .gauge("lifter-depth", 4, "29.19 mm");
  CHECK(chance(hagmoss(), one, "lifter-one", 3) > 0.5);
  CHECK(chance(hagmoss(), one, "gear-tooth-out", 0) < 0.01);
  JobMaker all = JobMaker{}.history("just-rebuilt");
  for (int cylinder = 1; cylinder <= 4; ++cylinder)
    all.gauge("lifter-depth", cylinder, "30.64 mm");  // 12 deg at 0.12 mm a degree
  CHECK(chance(hagmoss(), all, "gear-tooth-out", 0) > 0.5);
}
