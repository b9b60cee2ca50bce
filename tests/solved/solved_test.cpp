// The judge of told faults: how a story becomes a job and how its answer is counted, and what the
// knowledge reaches on the cases beside this checkout (each cites its page there).
#include "tests/solved/solved.hpp"

#include "tests/host/scratch.hpp"
#include "tests/judges/beside.hpp"
#include "tests/judges/shipped.hpp"
#include "tests/near.hpp"
#include "tests/solved/told_job.hpp"

#include <doctest/doctest.h>

#include <algorithm>

namespace soot::judges {
namespace {

const CodeMap& map() {
  return shipped_map("tests/solved/map.toml");
}

ToldCase told(int cylinders, std::vector<std::string> context, std::vector<std::string> complaint,
              std::vector<ToldFinding> findings, const std::string& cause) {
  ToldCase out;
  out.id = "T1";
  out.cylinders = cylinders;
  out.pump = "individual";
  out.context = std::move(context);
  out.complaint = std::move(complaint);
  out.findings = std::move(findings);
  out.cause = cause;
  return out;
}

Job job(const ToldCase& story) {
  PlainEngines& plain = shipped_engines();
  const auto engine = plain.engine(cylinders_of(story), features_of(plain, story));
  REQUIRE(engine);
  const Result<Job> out = job_of(**engine, map(), story);
  REQUIRE_MESSAGE(out, to_string(out ? Problems{} : out.error()));
  return *out;
}

// Findings stand in the order of the file, not of the telling.
const std::string a_line =
    R"({"id": "T2", "engine": {"cylinders": 2, "strokes": "unknown", "pump": "individual", )"
    R"("chamber": "unknown", "use": "boat"}, "context": [], "complaint": ["hunting"], )"
    R"("findings": [{"order": 3, "code": "knock", "present": true, "value": null, )"
    R"("unit": null, "reveals_cause": false}, {"order": 2, "code": "rack-sticky", )"
    R"("present": true, "value": null, "unit": null, "reveals_cause": true}, {"order": 1, )"
    R"("code": "cranks-well", "present": true, "value": 7, "unit": "s", )"
    R"("reveals_cause": false}], "true_cause": "rack-sticking", "other_true_causes": []})";

}  // namespace

TEST_CASE("a story becomes a history and signs and readings") {
  const Job out = job(told(3, {"old-engine", "pump-removed-recently"}, {"hunting"},
                           {{"cranks-well", true, std::nullopt, ""},
                            {"nozzle-opening-psi", true, 1800.0, "psi"},
                            {"bubbles-in-coolant", false, std::nullopt, ""}},
                           "rack-sticking"));
  CHECK(out.history == "just-rebuilt");  // work outweighs age
  REQUIRE(out.observations.size() >= 3);
  CHECK(out.observations[0].symptom == "hunts");
  CHECK(out.observations[0].complaint);
  CHECK(out.observations[1].symptom == "slow-crank");
  CHECK_FALSE(out.observations[1].present);
  CHECK(out.observations.back().symptom == "bubbles-in-coolant");
  CHECK_FALSE(out.observations.back().present);
  REQUIRE(out.readings.size() == 1);
  CHECK(out.readings.front().quantity == "nozzle-opening");
  CHECK(out.readings.front().cylinder == 1);
  CHECK(out.readings.front().value.model() == test::near(124.105626));
}

TEST_CASE("a single has no other cylinder to miss") {
  CHECK(job(told(1, {}, {"misfire-one-cyl", "low-power"}, {}, "nozzle-dribble"))
            .observations.size() == 1);
}

TEST_CASE("a code that the map does not know is refused") {
  PlainEngines& plain = shipped_engines();
  const auto result = solve(plain, map(), {told(4, {}, {"no-such-code"}, {}, "rack-sticking")});
  REQUIRE_FALSE(result);
  CHECK(result.error().front().text == "case T1: the map has no complaint no-such-code");
}

TEST_CASE("places are counted with another true cause as half") {
  Solved solved;
  const auto add = [&](std::size_t place, std::size_t other, bool in_scope) {
    SolvedCase& one = solved.cases.emplace_back();
    one.place = place;
    one.other = other;
    one.causes = 100;
    one.in_scope = in_scope;
  };
  add(1, 0, true);
  add(4, 2, true);
  add(0, 0, false);
  CHECK(solved.top(1) == test::near(1.0 / 3));
  CHECK(solved.top(3) == test::near(1.5 / 3));
  CHECK(solved.top(5) == test::near(2.0 / 3));
  CHECK(solved.top_in_scope(3) == test::near(0.75));
  CHECK(solved.median_place() == test::near(4));
}

TEST_CASE("what shows the cause and all that follows is left out") {
  const host::test::Scratch scratch("told-cases");
  const auto cases = load_told_cases(scratch.write("cases.jsonl", a_line + "\n\n"));
  REQUIRE_MESSAGE(cases, to_string(cases ? Problems{} : cases.error()));
  REQUIRE(cases->size() == 1);
  REQUIRE(cases->front().findings.size() == 1);
  CHECK(cases->front().findings.front().code == "cranks-well");
  CHECK(cases->front().findings.front().value == 7.0);
  CHECK(cases->front().cylinders == 2);
  CHECK_FALSE(cases->front().strokes.has_value());
}

TEST_CASE("a line that is no told case is named") {
  const host::test::Scratch scratch("told-cases-broken");
  const auto cases = load_told_cases(scratch.write("cases.jsonl", a_line + "\n{\"id\": 3}\n"));
  REQUIRE_FALSE(cases);
  REQUIRE(cases.error().size() == 1);
  CHECK(cases.error().front().place.line == 2);
}

// What the knowledge has reached; wanted is 0.6. Only ever raised.
constexpr double reached = 0.77;

TEST_CASE("the told faults are found no less often than before") {
  const auto path = beside("solved/cases.jsonl");
  if (!path) return;
  const auto cases = load_told_cases(*path);
  REQUIRE_MESSAGE(cases, to_string(cases ? Problems{} : cases.error()));
  CHECK(cases->size() >= 31);
  PlainEngines& plain = shipped_engines();
  const Result<Solved> result = solve(plain, map(), *cases);
  REQUIRE_MESSAGE(result, to_string(result ? Problems{} : result.error()));
  MESSAGE("top-3 " << result->top(3) << ", in scope " << result->top_in_scope(3));
  CHECK(result->top_in_scope(3) >= reached);
}

}  // namespace soot::judges
