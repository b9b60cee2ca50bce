// The shapes that other programs read, key by key, as the design's section on the job file fixes
// them. Extra keys are allowed; those named here stay.
#include "core/report/json.hpp"

#include "tests/report/answers_by_hand.hpp"

#include <doctest/doctest.h>
#include <nlohmann/json.hpp>

#include <limits>
#include <string>

namespace {

using Json = nlohmann::json;

Json parsed(const std::string& text) {
  CHECK(text.ends_with("}\n"));
  return Json::parse(text);
}

}  // namespace

TEST_CASE("rank as JSON") {
  const Json out = parsed(soot::to_json(soot::test::ranked_by_hand()));
  CHECK(out["format"] == "sootsayer.rank/1");
  CHECK(out["family"] == "grebe-3");
  CHECK(out["exact"] == true);
  CHECK(out["error-bound"] == 1e-12);
  CHECK(out["history"] == Json::parse(R"({"just-rebuilt": 1.0, "ordinary": 0.0})"));
  CHECK(out["causes"][0] == Json::parse(R"({"id": "lifter-one", "cylinder": 3, "probability": 0.871,
    "grades": {"late-slight": 0.07, "late-gross": 0.8, "early": 0.001}})"));
  CHECK(out["causes"][1]["cylinder"].is_null());
  CHECK(out["by-cause"][0] ==
        Json::parse(R"({"id": "lifter-one", "probability": 0.878, "cylinder": 3})"));
  CHECK(out["by-cause"][1]["cylinder"].is_null());
  CHECK(out["by-cause"][2]["quantity"] == "lifter-depth");
  CHECK(out["not-listed"] == Json::parse(R"([
    {"symptom": "hard-start", "cylinder": null, "probability": 0.0431},
    {"symptom": "spray-wet", "cylinder": 2, "probability": 0.002}])"));
  CHECK(out["explanations"][0] == Json::parse(R"({"probability": 0.81, "causes": [
    {"id": "lifter-one", "cylinder": 3, "grade": "late-gross"}]})"));
  CHECK(out["explanations"][1]["causes"][0]["cylinder"].is_null());
  CHECK(out["explanations"][2]["causes"] == Json::array());
  CHECK(out["log10-evidence"] == -7.25);
  CHECK(out["worst-fit"] == Json::parse(R"({"kind": "reading", "id": "lifter-depth", "cylinder": 3,
    "said": "29.41 mm", "probability": 0.031})"));
}

TEST_CASE("a ranking of nothing has all its keys") {
  soot::RankAnswer answer;
  answer.impossible = true;
  answer.log10_evidence = -std::numeric_limits<double>::infinity();
  const Json out = parsed(soot::to_json(answer));
  for (const std::string key : {"causes", "by-cause", "not-listed", "explanations"})
    CHECK(out[key] == Json::array());
  CHECK(out["history"] == Json::object());
  CHECK(out["log10-evidence"].is_null());
  CHECK(out["worst-fit"].is_null());
}

TEST_CASE("next as JSON") {
  const Json out = parsed(soot::to_json(soot::test::proposed_by_hand()));
  CHECK(out["format"] == "sootsayer.next/1");
  CHECK(out["verdict"] == "look");
  CHECK(out["proposals"][0] == Json::parse(R"({"kind": "check", "id": "lifter-depth",
    "cylinders": [1, 2, 3], "minutes": 25.0, "opening-minutes": 10.0, "cost": 140.5,
    "saving": 31.0, "saving-over-not-looking": 64.0, "mends": 0.0,
    "parts": [["lifter-one", 3], ["gear-tooth-out", null]]})"));
  CHECK(out["proposals"][1]["kind"] == "run");
  CHECK(out["proposals"][1]["cylinders"] == Json::array());
  CHECK(out["proposals"][1]["parts"] == Json::array());
}

TEST_CASE("every verdict and kind has the word of the contract") {
  using Kind = soot::ProposalLine::Kind;
  CHECK(soot::name_of(Kind::check) == "check");
  CHECK(soot::name_of(Kind::correction) == "correction");
  CHECK(soot::name_of(Kind::run) == "run");
  CHECK(soot::name_of(Kind::hand_over) == "hand-over");
  CHECK(soot::name_of(soot::Verdict::hand_over) == "hand-over");
}

TEST_CASE("weigh as JSON") {
  const Json out = parsed(soot::to_json(soot::test::weighed_by_hand()));
  CHECK(out["format"] == "sootsayer.weigh/1");
  CHECK(out["cause"] == "lifter-one");
  CHECK(out["cylinder"] == 3);
  CHECK(out["prior"] == 0.015);
  REQUIRE(out["evidence"].size() == 5);
  CHECK(out["evidence"][1]["kind"] == "symptom");
  CHECK(out["evidence"][1]["cylinder"].is_null());
  CHECK(out["evidence"][1]["log-odds"] == doctest::Approx(1.0986123));
  CHECK(out["evidence"][4]["log-odds"].is_null());
}

TEST_CASE("a sum as JSON") {
  soot::calc::Sum sum;
  sum.id = "lifter";
  sum.title = "Depth to turns";
  soot::calc::Amount amount;
  amount.name = "depth";
  amount.cylinder = 3;
  amount.value = 25.4;
  amount.unit = *soot::find_unit("in");
  amount.expanded = 0.254;
  sum.results = {amount};
  const Json out = parsed(soot::to_json(sum));
  CHECK(out["format"] == "sootsayer.sum/1");
  CHECK(out["sum"] == "lifter");
  CHECK(out["results"][0]["value"] == doctest::Approx(1));
  CHECK(out["results"][0]["unit"] == "in");
  CHECK(out["results"][0]["expanded-uncertainty"] == doctest::Approx(0.01));
  CHECK(out["results"][0]["cylinder"] == 3);
}

TEST_CASE("a case as JSON holds its ranking and where the truth stands in it") {
  soot::CaseReport report;
  report.name = "one-lifter";
  report.rank = soot::test::ranked_by_hand();
  report.truth = {{"lifter-one", "one lifter set wrong", 3, "late-gross", 1, 0.878, 3},
                  {"odd", "odd", 0, "present", 0, 0, 0}};
  const Json out = parsed(soot::to_json(report));
  CHECK(out["format"] == "sootsayer.case/1");
  CHECK(out["truth"][0]["rank"] == 1);
  CHECK(out["truth"][1]["rank"].is_null());
  CHECK(out["rank"]["format"] == "sootsayer.rank/1");
}

TEST_CASE("jobs and cases as JSON") {
  soot::JobLine job;
  job.number = 7;
  job.family = "grebe-3";
  job.words = "slow \"to\" start\n";
  const Json jobs = parsed(soot::to_json(std::vector<soot::JobLine>{job}));
  CHECK(jobs["format"] == "sootsayer.jobs/1");
  CHECK(jobs["jobs"][0]["number"] == 7);
  CHECK(jobs["jobs"][0]["words"] == "slow \"to\" start\n");
  const Json cases = parsed(soot::to_json(std::vector<soot::CaseTitle>{{"a", "grebe-3", "A"}}));
  CHECK(cases["format"] == "sootsayer.case-list/1");
  CHECK(cases["cases"][0]["family"] == "grebe-3");
}
