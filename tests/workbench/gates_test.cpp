// What must be proved before the engine is turned or run, from data: nothing here knows an id that
// a gate does not name.
#include "core/workbench/gates.hpp"

#include "tests/workbench/real_bench.hpp"

#include <doctest/doctest.h>

#include <algorithm>

using soot::Gate;
using soot::Running;
using soot::test::hagmoss;
using soot::test::JobMaker;

namespace {

const Gate& stopping() {
  return get_id(hagmoss().knowledge.gates, "can-be-stopped");
}

/// A gate made for the test: shut by a history or a finding, opened by the stop test.
Gate made() {
  Gate gate;
  gate.id = "made";
  gate.ask = "first look";
  gate.before = Running::running;
  gate.after_history = {"long-storage"};
  gate.after_found = {"knock-mechanical"};
  gate.prove = stopping().prove;
  return gate;
}

JobMaker racks_home(JobMaker job, const char* last = "0 mm") {
  for (int cylinder = 1; cylinder <= 4; ++cylinder)
    job.gauge("rack-at-stop", cylinder, cylinder == 4 ? last : "0.1 mm");
  return job;
}

bool open(const Gate& gate, const JobMaker& job) {
  return is_open(hagmoss(), gate, job.job());
}

}  // namespace

TEST_CASE("work that may leave a rack at fuel shuts the gate and every rack home opens it") {
  CHECK(open(stopping(), JobMaker{}));
  const JobMaker worked = JobMaker{}.done("set-lifter", {3});
  CHECK_FALSE(open(stopping(), worked));
  CHECK(open(stopping(), racks_home(worked)));
  // Proved before the work is not proved after it.
  CHECK_FALSE(open(stopping(), racks_home(JobMaker{}).done("set-lifter", {3})));
}

TEST_CASE("a rack that stays out or was not read proves nothing") {
  const JobMaker worked = JobMaker{}.done("set-lifter", {3});
  CHECK_FALSE(open(stopping(), racks_home(worked, "6 mm")));
  JobMaker three = worked;
  for (int cylinder = 1; cylinder <= 3; ++cylinder)
    three.gauge("rack-at-stop", cylinder, "0 mm");
  CHECK_FALSE(open(stopping(), three));
  // The last reading of a rack counts.
  CHECK(open(stopping(), racks_home(worked, "6 mm").gauge("rack-at-stop", 4, "0 mm")));
}

TEST_CASE("a history and a finding shut a gate") {
  CHECK(open(made(), JobMaker{}.history("ordinary")));
  CHECK_FALSE(open(made(), JobMaker{}.history("long-storage")));
  CHECK(open(made(), racks_home(JobMaker{}.history("long-storage"))));
  CHECK_FALSE(open(made(), racks_home(JobMaker{}).saw("knock-mechanical")));
  CHECK(open(made(), JobMaker{}.missed("knock-mechanical")));
}

TEST_CASE("a finding of a cylinder is looked for on every one") {
  const soot::Knowledge& knowledge = hagmoss().knowledge;
  const auto check = std::find_if(
      knowledge.checks.begin(), knowledge.checks.end(), [&](const soot::Check& candidate) {
        return candidate.answers.size() == 1 &&
               get_id(knowledge.symptoms, candidate.answers.front()).scope == soot::Scope::cylinder;
      });
  REQUIRE(check != knowledge.checks.end());
  const std::string& finding = check->answers.front();
  Gate gate = made();
  gate.prove = check->id;
  JobMaker job = JobMaker{}.history("long-storage");
  for (int cylinder = 1; cylinder <= 3; ++cylinder)
    job.missed(finding, cylinder);
  CHECK_FALSE(open(gate, job));
  CHECK(open(gate, job.missed(finding, 4)));
  CHECK_FALSE(open(gate, job.saw(finding, 2)));
  CHECK(open(gate, job.missed(finding, 2)));
}

TEST_CASE("a gate without proof stays shut") {
  Gate warning = made();
  warning.prove.clear();
  CHECK_FALSE(open(warning, racks_home(JobMaker{}.saw("knock-mechanical"))));
  CHECK(ask_words(warning) == "first look");
}

TEST_CASE("a gate before running lets cranking pass and one before cranking neither") {
  CHECK(guards(made(), Running::running));
  CHECK_FALSE(guards(made(), Running::cranking));
  CHECK(guards(stopping(), Running::cranking));
  CHECK(guards(stopping(), Running::running));
  CHECK_FALSE(guards(stopping(), Running::stopped));
}

TEST_CASE("what is asked names its check and what else lies ready") {
  CHECK(
      ask_words(stopping()) ==
      "first prove that it can be stopped: stop-lever-test (sootsayer steps stop-lever-test), air "
      "shut-off ready");
}

TEST_CASE("every gate names entries that are there") {
  const soot::Knowledge& all = soot::test::real_bench().knowledge();
  for (const Gate& gate : all.gates) {
    CAPTURE(gate.id);
    if (!gate.prove.empty()) CHECK(find_id(all.checks, gate.prove) != nullptr);
    for (const std::string& id : gate.after_found)
      CHECK_MESSAGE(find_id(all.symptoms, id) != nullptr, id);
    for (const std::string& id : gate.after_caution)
      CHECK_MESSAGE(find_id(all.cautions, id) != nullptr, id);
  }
}
