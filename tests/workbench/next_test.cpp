// What the next move respects: what cannot be done here, tools, the stop test, a complaint at all.
#include "core/workbench/next.hpp"

#include "tests/workbench/real_bench.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <set>

using soot::Proof;
using soot::ProposalLine;
using soot::Verdict;
using soot::test::hagmoss;
using soot::test::JobMaker;

namespace {

soot::NextAnswer next_of(const JobMaker& maker, const std::vector<std::string>& skipped = {}) {
  const auto inquiry = inquire(hagmoss(), maker.job());
  REQUIRE_MESSAGE(inquiry, (inquiry ? "" : to_string(inquiry.error())));
  auto answer = next(hagmoss(), *inquiry, skipped);
  REQUIRE_MESSAGE(answer, (answer ? "" : to_string(answer.error())));
  return *answer;
}

bool proposes(const soot::NextAnswer& answer, const std::string& id) {
  return std::any_of(answer.proposals.begin(), answer.proposals.end(),
                     [&](const ProposalLine& line) { return line.id == id; });
}

JobMaker complaint() {
  return JobMaker{}.history("just-rebuilt").saw("hard-start-cold").saw("smoke-white");
}

const std::string stop_first =
    "first prove that it can be stopped: stop-lever-test (sootsayer steps stop-lever-test), air "
    "shut-off ready";

// How many proposals need the engine running; each must ask for the stop test first, or none.
std::size_t running_proposals(const soot::NextAnswer& answer, bool stop_is_first) {
  std::size_t count = 0;
  for (const ProposalLine& line : answer.proposals) {
    const soot::Check* check = find_id(hagmoss().knowledge.checks, line.id);
    const bool is_run = line.kind == ProposalLine::Kind::run;
    if (!is_run && (check == nullptr || check->running != soot::Running::running)) continue;
    ++count;
    CAPTURE(line.id);
    const bool asked = !line.cautions.empty() && line.cautions.front() == stop_first;
    CHECK(asked == stop_is_first);
    if (stop_is_first) CHECK(line.opening_minutes > 0);
  }
  return count;
}

}  // namespace

TEST_CASE("without a complaint and without a reading there is no next move") {
  const auto inquiry = inquire(hagmoss(), JobMaker{}.missed("smoke-white").job());
  REQUIRE(inquiry);
  const auto answer = next(hagmoss(), *inquiry, {});
  REQUIRE_FALSE(answer);
  CHECK(to_string(answer.error()) ==
        "no complaint is told yet (say what is seen: sootsayer saw SYMPTOM)");
  CHECK(answer.error().front().kind == soot::Kind::use);
}

TEST_CASE("readings alone ask for the correction of what moved them") {
  JobMaker one_late;
  for (int c = 1; c <= 4; ++c)
    one_late.gauge("lifter-depth", c, c == 3 ? "29.45 mm" : "29.20 mm");
  const soot::NextAnswer answer = next_of(one_late);
  REQUIRE_FALSE(answer.proposals.empty());
  CHECK(answer.verdict == Verdict::correct);
  CHECK(answer.proposals.front().id == "set-lifter");
  CHECK(answer.proposals.front().cylinders == std::vector<int>{3});
  CHECK(answer.remarks ==
        std::vector<std::string>{"nothing is complained of: this goes by the readings alone (if it "
                                 "runs badly, say how: sootsayer saw SYMPTOM --complaint)"});
}

TEST_CASE("readings that are all right ask for nothing but to be taken again") {
  JobMaker sound;
  for (int c = 1; c <= 4; ++c)
    sound.gauge("lifter-depth", c, "29.20 mm");
  const soot::NextAnswer answer = next_of(sound);
  CHECK(answer.verdict == Verdict::prove);
  REQUIRE_FALSE(answer.proposals.empty());
  CHECK(answer.proposals.front().id == "measure-again");
}

TEST_CASE("what a reading was taken with is at hand for the work") {
  REQUIRE_FALSE(get_id(hagmoss().knowledge.tools, "nozzle-test-pump").at_hand);
  JobMaker told = JobMaker{}.history("long-service").saw("rough-running").saw("miss-one-cylinder");
  CHECK_FALSE(proposes(next_of(told), "set-nozzle-pressure"));
  for (int c = 1; c <= 4; ++c)
    told.gauge("nozzle-opening", c, c == 2 ? "60 bar" : "103 bar");
  CHECK(proposes(next_of(told), "set-nozzle-pressure"));
  const soot::NextAnswer bare = next_of(told.tools({"spanners"}));
  CHECK_FALSE(proposes(bare, "set-nozzle-pressure"));
}

TEST_CASE("a first look is proposed and what is skipped is not") {
  const soot::NextAnswer first = next_of(complaint());
  CHECK(first.family == "hagmoss-4");
  REQUIRE_FALSE(first.proposals.empty());
  const auto check =
      std::find_if(first.proposals.begin(), first.proposals.end(),
                   [](const ProposalLine& line) { return line.kind == ProposalLine::Kind::check; });
  REQUIRE(check != first.proposals.end());
  const soot::NextAnswer second = next_of(complaint(), {check->id});
  CHECK_FALSE(proposes(second, check->id));
}

TEST_CASE("no check is proposed whose tools are missing") {
  const soot::NextAnswer answer = next_of(complaint().tools({}));
  for (const ProposalLine& line : answer.proposals)
    if (line.kind == ProposalLine::Kind::check || line.kind == ProposalLine::Kind::correction)
      CHECK_MESSAGE(line.tools.empty(), line.id);
}

TEST_CASE("what was looked at is not proposed again") {
  JobMaker job = complaint();
  for (int cylinder = 1; cylinder <= 4; ++cylinder)
    job.gauge("lifter-depth", cylinder, "29.2 mm");
  for (const ProposalLine& line : next_of(job).proposals)
    CHECK(line.id != "lifter-depth");
}

TEST_CASE("nothing is run before the stop test once racks or pumps were worked on") {
  const JobMaker deep = JobMaker{}
                            .history("just-rebuilt")
                            .saw("hard-start-cold")
                            .gauge("lifter-depth", 1, "29.20 mm")
                            .gauge("lifter-depth", 2, "29.20 mm")
                            .gauge("lifter-depth", 3, "29.45 mm")
                            .gauge("lifter-depth", 4, "29.20 mm");
  const soot::Correction& correction = get_id(hagmoss().knowledge.corrections, "set-lifter");
  REQUIRE(std::count(correction.cautions.begin(), correction.cautions.end(), "runaway-stop-test") ==
          1);
  JobMaker set = deep;
  set.done("set-lifter", {3}).gauge("lifter-depth", 3, "29.20 mm");
  CHECK(running_proposals(next_of(set), true) > 0);
  for (int cylinder = 1; cylinder <= 4; ++cylinder)
    set.gauge("rack-at-stop", cylinder, "0 mm");
  CHECK(running_proposals(next_of(set), false) > 0);
}

TEST_CASE("a cured job is cured and nothing is proposed") {
  const soot::NextAnswer answer = next_of(complaint().done("set-lifter", {3}).proved(Proof::cured));
  CHECK(answer.verdict == Verdict::cured);
  CHECK(answer.proposals.empty());
}

TEST_CASE("after the correction the run of the complaint comes next") {
  JobMaker job = JobMaker{}.history("just-rebuilt").saw("hard-start-cold");
  for (int c = 1; c <= 4; ++c)
    job.gauge("lifter-depth", c, c == 3 ? "29.45 mm" : "29.20 mm");
  job.done("set-lifter", {3}).gauge("lifter-depth", 3, "29.20 mm");
  for (int c = 1; c <= 4; ++c)
    job.gauge("rack-at-stop", c, "0 mm");
  const auto inquiry = inquire(hagmoss(), job.job());
  REQUIRE(inquiry);
  CHECK(next(hagmoss(), *inquiry, {}).value().verdict == Verdict::prove);
}

TEST_CASE("nothing that may start it comes before the stop test and nothing is said twice") {
  JobMaker job = JobMaker{}.history("just-rebuilt").saw("hard-start-cold");
  job.done("set-lifter", {3}).gauge("lifter-depth", 3, "29.20 mm").saw("hard-start-cold");
  const auto inquiry = inquire(hagmoss(), job.job());
  REQUIRE(inquiry);
  const soot::NextAnswer answer = next(hagmoss(), *inquiry, {}).value();
  std::set<std::pair<std::string, std::vector<int>>> seen;
  for (const ProposalLine& line : answer.proposals) {
    CHECK_MESSAGE(seen.insert({line.id, line.cylinders}).second, line.id);
    if (line.id == "start-smoke" || line.id == "crank-speed") {
      REQUIRE_FALSE(line.cautions.empty());
      CHECK(line.cautions.front().find("first prove that it can be stopped") == 0);
    }
  }
}
