// The judge of the handbooks: how it counts, and what the knowledge reaches on the tables beside
// this checkout (published trouble tables; each row cites its source there).
#include "tests/handbook/recall.hpp"

#include "tests/judges/beside.hpp"
#include "tests/judges/shipped.hpp"
#include "tests/near.hpp"

#include <doctest/doctest.h>

namespace soot::judges {
namespace {

Row row(const std::string& symptom, const std::string& cause, const std::string& applies = "yes",
        const std::string& condition = "running") {
  return {{"source", "test"},    {"row", "1"},         {"symptom_code", symptom},
          {"cause_code", cause}, {"applies", applies}, {"condition", condition}};
}

Recall ask(const std::vector<Row>& rows) {
  Result<Recall> result = recall(shipped_engines(), shipped_map("tests/handbook/map.toml"), rows);
  REQUIRE_MESSAGE(result, to_string(result ? Problems{} : result.error()));
  return std::move(*result);
}

}  // namespace

TEST_CASE("a complaint is asked and a finding is not") {
  const Recall result =
      ask({row("gear-rattle", "gear-worn"), row("timing-drift-found", "gear-worn"),
           row("piston-seized-event", "overheating")});
  REQUIRE(result.asked.size() == 1);
  CHECK(result.asked.front().place == 1);
  CHECK(result.left_out.size() == 2);
  CHECK(result.wanted() == 1);
  CHECK(result.share_within(5) == test::near(1));
}

TEST_CASE("a code that the map leaves out or lacks is a miss") {
  const Recall result = ask({row("gear-rattle", "turbo-faulty"), row("gear-rattle", "no-such-code"),
                             row("no-such-sign", "gear-worn"), row("gear-rattle", "gear-worn")});
  CHECK(result.asked.size() == 1);
  REQUIRE(result.missed.size() == 3);
  CHECK(result.missed[0].why == "cause left out: these engines have no turbocharger");
  CHECK(result.missed[1].why == "the map does not know the cause");
  CHECK(result.missed[2].why == "the map does not know the symptom");
  CHECK(result.share_within(10) == test::near(0.25));
  CHECK(result.ceiling_share() == test::near(1));
}

TEST_CASE("ten answers cannot name eleven causes") {
  std::vector<Row> rows;
  for (const char* cause :
       {"gear-worn", "overload", "rack-sticking", "water-in-fuel", "fuel-filter-clogged",
        "air-filter-clogged", "tank-vent-blocked", "exhaust-restricted", "nozzle-holes-clogged",
        "head-gasket-leaking", "valve-leaking"})
    rows.push_back(row("low-power", cause));
  const Recall result = ask(rows);
  CHECK(result.asked.size() == 11);
  CHECK(result.ceiling == 10);
  CHECK(result.ceiling_share() == test::near(10.0 / 11));
}

TEST_CASE("a part that the plain engine lacks is asked of one that has it") {
  const Recall result = ask({row("slow-crank", "start-air-low")});
  REQUIRE(result.asked.size() == 1);
  CHECK(result.asked.front().engine == "air-start");
  CHECK(result.asked.front().place != 0);
}

TEST_CASE("a row that does not apply is no question but may be a violation") {
  const Recall result = ask({row("hard-start-cold", "glow-plug-faulty", "no"),
                             row("smoke-black-load", "turbo-faulty", "no"),
                             row("smoke-black-load", "overload", "no")});
  CHECK(result.wanted() == 0);
  CHECK(result.refused == 3);
  REQUIRE(result.violations.size() == 1);
  CHECK(result.violations.front().cause == "overload");
}

TEST_CASE("a rebuild is part of the question") {
  const Recall result = ask(
      {row("low-power", "timing-wrong"), row("low-power", "timing-wrong", "yes", "after-rebuild")});
  REQUIRE(result.asked.size() == 2);
  CHECK(result.asked[1].place <= result.asked[0].place);
}

// What the knowledge has reached; wanted are 0.75 and 0.85 of the ceiling. Raised when it does
// better; lowered for a reason that lies in the engines alone (last: a review that had not seen the
// tables).
constexpr double reached = 0.76;

TEST_CASE("the published trouble tables are answered no worse than before") {
  const auto path = beside("handbook/pairs.csv");
  if (!path) return;
  const Result<std::vector<Row>> rows = read_rows(*path, row_columns);
  REQUIRE_MESSAGE(rows, to_string(rows ? Problems{} : rows.error()));
  CHECK(rows->size() >= 384);
  const Recall result = ask(*rows);
  MESSAGE("recall-10 " << result.share_within(10) << " of at best " << result.ceiling_share());
  CHECK(result.share_within(10) >= reached);
  CHECK(result.violations.empty());
}

}  // namespace soot::judges
