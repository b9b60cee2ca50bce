// What a plugin's family adds to the common knowledge and puts right in it, and the names it may
// use.
#include "core/workbench/taken_in.hpp"

#include "tests/workbench/real_bench.hpp"

#include <doctest/doctest.h>

using soot::find_id;
using soot::Knowledge;
using soot::Problems;
using soot::Result;
using soot::TakenIn;
using soot::test::real_bench;

namespace {

const std::string head = R"([family]
id = "reed-1"
name = "Reed single"
version = "1.0.0"
author = "test"
cylinders = 1
firing-order = [1]
rotation = "clockwise seen from the flywheel"
numbering = "there is only one"
features = ["four-stroke", "individual-pumps", "hand-start"]
)";

/// A hopper that boils, from sign to correction.
std::string own_entries(const std::string& prefix) {
  const std::string entries = R"(
[[cause]]
id = "PREFIX-hopper-furred"
name = "hopper furred up"
system = "cooling"
about = "Scale in the hopper keeps the heat in."
common = "uncommon"
corrections = ["PREFIX-descale"]
source = "practice"
symptom = [{ id = "PREFIX-hopper-boils-found", how = "usually" }]
[[symptom]]
id = "PREFIX-hopper-boils-found"
name = "hopper boils at half load"
ask = "Does the hopper boil before the engine pulls its full load?"
leak = 0.02
source = "practice"
[[check]]
id = "PREFIX-hopper-look"
name = "look into the hopper under load"
tells = "scale"
state = "running"
set-up = 1
answers = ["PREFIX-hopper-boils-found"]
source = "practice"
[[correction]]
id = "PREFIX-descale"
name = "descale the hopper"
mends = [{ cause = "PREFIX-hopper-furred", cure = "likely" }]
set-up = 60
source = "practice"
)";
  std::string out;
  for (std::size_t at = 0; at < entries.size();) {
    const bool here = entries.compare(at, 6, "PREFIX") == 0;
    out += here ? prefix : entries.substr(at, 1);
    at += here ? 6 : 1;
  }
  return out;
}

soot::host::ServedFamily served(const std::string& text) {
  return {"reed-1", head + text, "families/reed-1.toml", "reed", "1.0.0", nullptr};
}

Result<Knowledge> joined(const std::string& text) {
  const Result<TakenIn> taken = take_in(served(text), real_bench().scale());
  if (!taken) return tl::unexpected<Problems>(taken.error());
  return join(real_bench().knowledge(), taken->amendments, taken->own, taken->family);
}

}  // namespace

TEST_CASE("a family brings a cause of its own with its sign and check and correction") {
  for (const char* prefix : {"reed", "reed-1"}) {
    const Result<Knowledge> all = joined(own_entries(prefix));
    REQUIRE_MESSAGE(all, (all ? "" : to_string(all.error())));
    const std::string p = prefix;
    CHECK(find_id(all->causes, p + "-hopper-furred") != nullptr);
    CHECK(find_id(all->symptoms, p + "-hopper-boils-found") != nullptr);
    CHECK(find_id(all->checks, p + "-hopper-look") != nullptr);
    CHECK(find_id(all->corrections, p + "-descale") != nullptr);
    CHECK(find_id(all->causes, real_bench().knowledge().causes.front().id) != nullptr);
  }
}

TEST_CASE("entries under the name of another are told one by one and hide the family") {
  const Result<TakenIn> taken = take_in(served(own_entries("bog")), real_bench().scale());
  REQUIRE_FALSE(taken);
  REQUIRE(taken.error().size() == 5);
  CHECK(to_string(taken.error()[0]) ==
        "families/reed-1.toml: family reed-1 is hidden: it goes by names that are not its own");
  CHECK(
      to_string(taken.error()[1]) ==
      "families/reed-1.toml:21:1: symptom bog-hopper-boils-found (expected an id that begins with "
      "reed-)");
  CHECK(taken.error()[2].text == "cause bog-hopper-furred (expected an id that begins with reed-)");
}

TEST_CASE("the check of the knowledge runs on the sum") {
  std::string text = own_entries("reed");
  text.replace(text.find("answers = [\"reed-hopper-boils-found"), 35,
               "answers = [\"reed-hopper-boils-foun");
  const Result<Knowledge> all = joined(text);
  REQUIRE_FALSE(all);
  CHECK(all.error().front().text.find(
            "reed-hopper-look names symptom 'reed-hopper-boils-foun', which is not there") == 0);
  CHECK(all.error().front().place.file == "families/reed-1.toml");
}

TEST_CASE("a common figure is another one on this family and on no other") {
  const std::string id = "lifter-depth";
  const Result<Knowledge> all = joined("\n[[amend]]\nquantity = \"" + id +
                                       "\"\ninstrument = \"0.5 mm\"\nsource = \"practice\"\n");
  REQUIRE_MESSAGE(all, (all ? "" : to_string(all.error())));
  CHECK(find_id(all->quantities, id)->instrument == 0.5);
  CHECK(find_id(real_bench().knowledge().quantities, id)->instrument < 0.5);
}
