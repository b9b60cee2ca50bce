// An engine is asked nothing about parts that it lacks.
#include "tests/workbench/real_bench.hpp"

#include <doctest/doctest.h>

#include <algorithm>

using soot::Knowledge;
using soot::test::hagmoss;
using soot::test::lodefoot;
using soot::test::real_bench;

namespace {

// The common knowledge for the hagmoss as if it had these features and no others.
Knowledge with_features(std::vector<std::string> features) {
  soot::Family family = hagmoss().family;
  family.features = std::move(features);
  const auto found = applicable(real_bench().knowledge(), {}, family);
  REQUIRE_MESSAGE(found, (found ? "" : to_string(found.error())));
  return *found;
}

template <class Entry>
void check_needs(const soot::Entries<Entry>& list, const soot::Family& family) {
  for (const Entry& entry : list)
    for (const std::string& need : entry.needs)
      CHECK_MESSAGE(family.has(need), entry.id, " ", need);
}

}  // namespace

TEST_CASE("an engine keeps only entries whose parts it has") {
  for (const soot::Engine* engine : {&hagmoss(), &lodefoot()}) {
    check_needs(engine->knowledge.causes, engine->family);
    check_needs(engine->knowledge.symptoms, engine->family);
    check_needs(engine->knowledge.checks, engine->family);
    check_needs(engine->knowledge.corrections, engine->family);
    for (const soot::Cause& cause : engine->knowledge.causes)
      for (const std::string& feature : cause.without)
        CHECK_MESSAGE(!engine->family.has(feature), cause.id, " ", feature);
  }
}

TEST_CASE("an engine without lifters has no fault of them and no work on them") {
  const Knowledge with =
      with_features({"four-stroke", "valves", "lifters", "jam-nut", "individual-pumps"});
  const Knowledge without = with_features({"four-stroke", "valves"});
  for (const std::string id : {"lifter-one", "lifter-jam-rise", "lifter-nut-loose"}) {
    CHECK_MESSAGE(find_id(with.causes, id) != nullptr, id);
    CHECK_MESSAGE(find_id(without.causes, id) == nullptr, id);
  }
  CHECK(find_id(with.corrections, "set-lifter") != nullptr);
  CHECK(find_id(without.corrections, "set-lifter") == nullptr);
}

TEST_CASE("the tappets of an in-line pump are set by spill and never by depth") {
  const Knowledge in_line = with_features({"four-stroke", "lifters", "jam-nut", "in-line-pump"});
  for (const soot::Correction& correction : in_line.corrections)
    CHECK_MESSAGE(correction.procedure != "set-lifter", correction.id);
  CHECK(find_id(in_line.corrections, "phase-pump") != nullptr);
  CHECK(find_id(in_line.corrections, "time-in-line-pump") != nullptr);
  CHECK(find_id(in_line.corrections, "set-lifter") == nullptr);
}

// Physics: with no other cylinder to start and pull, what one cylinder loses the engine loses.
TEST_CASE("on one cylinder a cause of it does to the engine what it does alone") {
  const auto no_start = [](const soot::Engine& engine) {
    for (const soot::Link& link : get_id(engine.knowledge.causes, "valve-leak").links)
      if (link.symptom == "no-start-cranks-well") {
        CHECK((link.alone.empty() == (engine.family.cylinders == 1)));
        return link.strength;
      }
    return std::vector<double>{};
  };
  REQUIRE(lodefoot().family.cylinders == 1);
  const std::vector<double> alone = no_start(lodefoot()), of_four = no_start(hagmoss());
  REQUIRE(alone.size() == 2);
  REQUIRE(of_four.size() == 2);
  CHECK(alone[1] > 3 * of_four[1]);
}

TEST_CASE("nothing that is left names what was dropped") {
  for (const std::vector<std::string>& features :
       {std::vector<std::string>{}, {"two-stroke"}, lodefoot().family.features}) {
    const Knowledge left = with_features(features);
    for (const soot::Cause& cause : left.causes) {
      for (const soot::Link& link : cause.links)
        CHECK_MESSAGE(find_id(left.symptoms, link.symptom) != nullptr, cause.id, link.symptom);
      for (const std::string& id : cause.corrections)
        CHECK_MESSAGE(find_id(left.corrections, id) != nullptr, cause.id, id);
    }
    for (const soot::Correction& correction : left.corrections) {
      CHECK_FALSE(correction.mends.empty());
      for (const soot::Mend& mend : correction.mends)
        CHECK_MESSAGE(find_id(left.causes, mend.cause) != nullptr, correction.id, mend.cause);
      for (const std::string& id : correction.brings)
        CHECK_MESSAGE(find_id(left.causes, id) != nullptr, correction.id, id);
    }
    for (const soot::Check& check : left.checks) {
      CHECK_MESSAGE(check.answers.size() + check.reads.size() > 0, check.id);
      for (const std::string& id : check.answers)
        CHECK_MESSAGE(find_id(left.symptoms, id) != nullptr, check.id, id);
    }
  }
}

TEST_CASE("what a family adds of its own is there and must fit") {
  Knowledge own;
  soot::Tool tool;
  tool.id = "winch-key";
  tool.name = "key of the winch";
  own.tools = {tool};
  const auto good = applicable(real_bench().knowledge(), own, hagmoss().family);
  REQUIRE(good);
  CHECK(find_id(good->tools, "winch-key") != nullptr);
  soot::Cause cause = hagmoss().knowledge.causes.front();
  cause.place = {"own.toml", 7, 1};
  own.causes = {cause};
  const auto twice = applicable(real_bench().knowledge(), own, hagmoss().family);
  REQUIRE_FALSE(twice);
  CHECK(to_string(twice.error())
            .find("own.toml:7:1: cause " + cause.id + " is there twice (first at ") == 0);
}
