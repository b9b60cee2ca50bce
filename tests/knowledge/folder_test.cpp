// The knowledge as it ships: it loads without a complaint, every id resolves, and its entries fit
// each other in what no single reader can see.
#include "core/knowledge/loader.hpp"
#include "tests/places.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <filesystem>
#include <set>
#include <string>

namespace {

using soot::Knowledge;

const Knowledge& knowledge() {
  static const soot::Result<soot::LoadedKnowledge> loaded =
      soot::load_knowledge(source_dir() + "/knowledge");
  REQUIRE_MESSAGE(loaded, (loaded ? "" : to_string(loaded.error())));
  return loaded->knowledge;
}

}  // namespace

TEST_CASE("the folder of knowledge loads and every id resolves") {
  CHECK(knowledge().causes.size() >= 33);
  CHECK(knowledge().checks.size() > 0);
  CHECK(knowledge().procedures.size() > 0);
}

TEST_CASE("every file of the folder holds entries that are read") {
  // A file that load_knowledge passed over would hide its mistakes.
  std::set<std::string> read;
  const auto note = [&](const auto& list) {
    for (const auto& entry : list)
      read.insert(entry.place.file);
  };
  note(knowledge().terms);
  note(knowledge().symptoms);
  note(knowledge().quantities);
  note(knowledge().causes);
  note(knowledge().checks);
  note(knowledge().corrections);
  note(knowledge().procedures);
  note(knowledge().cautions);
  note(knowledge().gates);
  note(knowledge().covers);
  note(knowledge().tools);
  note(knowledge().features);
  note(knowledge().synonyms);
  note(knowledge().sources);
  std::size_t files = 0;
  for (const auto& file :
       std::filesystem::recursive_directory_iterator(source_dir() + "/knowledge")) {
    if (file.path().extension() != ".toml" || file.path().filename() == "scale.toml") continue;
    ++files;
    CHECK_MESSAGE(read.contains(file.path().string()), file.path().string());
  }
  CHECK(files > 10);
}

TEST_CASE("every cause of the first landing is there") {
  for (const std::string id : {"timing-off",          "lifter-one",
                               "lifter-jam-rise",     "lifter-nut-loose",
                               "gear-tooth-out",      "wrong-flank",
                               "gears-worn",          "tc-mark-wrong",
                               "wrong-stroke",        "plunger-worn",
                               "plunger-foot-worn",   "plungers-worn-all",
                               "plunger-sticking",    "delivery-valve-leak",
                               "inlet-seal",          "nop-low",
                               "nop-low-all",         "nozzle-dribble",
                               "nozzle-stick",        "rack-wrong-all",
                               "rack-wrong-one",      "rack-sticking",
                               "air-ingress",         "air-locked",
                               "filter-clogged",      "low-supply-pressure",
                               "rings-worn",          "valve-leak",
                               "compression-low-all", "overload",
                               "air-cleaner-clogged", "cold-ambient",
                               "instrument-wrong"})
    CHECK_MESSAGE(find_id(knowledge().causes, id) != nullptr, id);
}

TEST_CASE("every cause but the instrument can be mended and is heard of") {
  for (const soot::Cause& cause : knowledge().causes) {
    if (cause.id == "instrument-wrong") continue;
    CHECK_MESSAGE(!cause.corrections.empty(), cause.id, " has no correction");
    CHECK_MESSAGE((!cause.links.empty() || !cause.effects.empty()), cause.id, " shows nowhere");
  }
}

TEST_CASE("every symptom can be found and every quantity read by some check") {
  std::set<std::string> found;
  for (const soot::Check& check : knowledge().checks) {
    found.insert(check.answers.begin(), check.answers.end());
    found.insert(check.reads.begin(), check.reads.end());
  }
  for (const soot::Quantity& quantity : knowledge().quantities)
    CHECK_MESSAGE(found.contains(quantity.id), quantity.id, " is read by no check");
}

TEST_CASE("needs and exclusions are features an engine can have") {
  std::set<std::string> features;
  for (const soot::Feature& feature : knowledge().features)
    features.insert(feature.id);
  const auto known = [&](const auto& list) {
    for (const auto& entry : list)
      for (const std::string& need : entry.needs)
        CHECK_MESSAGE(features.contains(need), entry.id, " needs '", need, "'");
  };
  known(knowledge().causes);
  known(knowledge().symptoms);
  known(knowledge().checks);
  known(knowledge().corrections);
  for (const soot::Cause& cause : knowledge().causes)
    for (const std::string& without : cause.without)
      CHECK_MESSAGE(features.contains(without), cause.id, " is without '", without, "'");
}

TEST_CASE("sentences begin and end as sentences") {
  for (const soot::Caution& caution : knowledge().cautions) {
    CAPTURE(caution.id);
    REQUIRE_FALSE(caution.text.empty());
    CHECK(caution.text.back() == '.');
  }
  for (const soot::Procedure& procedure : knowledge().procedures)
    for (const soot::Step& step : procedure.steps) {
      CAPTURE(procedure.id);
      CAPTURE(step.saying.text);
      REQUIRE_FALSE(step.saying.text.empty());
      const auto open = std::count(step.saying.text.begin(), step.saying.text.end(), '{');
      CHECK(open == std::count(step.saying.text.begin(), step.saying.text.end(), '}'));
    }
}
