// What is said of an entry that cannot be meant of this engine, to the letter.
#include "core/workbench/entry_check.hpp"

#include "tests/workbench/real_bench.hpp"

#include <doctest/doctest.h>

using soot::test::hagmoss;
using soot::test::JobMaker;

namespace {

std::string told(const JobMaker& maker) {
  return to_string(faults_of(hagmoss(), maker.job()));
}

}  // namespace

TEST_CASE("good entries have no faults") {
  CHECK(told(JobMaker{}
                 .history("just-rebuilt")
                 .saw("hard-start-cold")
                 .missed("smoke-white")
                 .gauge("lifter-depth", 3, "1.158 in")
                 .done("set-lifter", {3})
                 .tools({"depth-micrometer"})) == "");
}

TEST_CASE("ids that this engine does not know get the nearest") {
  CHECK(told(JobMaker{}.saw("hard-strat")) ==
        "'hard-strat' is no symptom of hagmoss-4, did you mean hard-start?");
  CHECK(
      told(JobMaker{}.saw("sings-at-night")) ==
      "'sings-at-night' is no symptom of hagmoss-4 (list them: sootsayer knowledge list symptom)");
  CHECK(told(JobMaker{}.gauge("lifter-dept", 1, "29.2 mm")) ==
        "'lifter-dept' is no quantity of hagmoss-4, did you mean lifter-depth?");
  CHECK(told(JobMaker{}.done("set-liftr", {1})) ==
        "'set-liftr' is no correction of hagmoss-4, did you mean set-lifter?");
  CHECK(told(JobMaker{}.tools({"depth-micrometr"})) ==
        "'depth-micrometr' is no tool of hagmoss-4, did you mean depth-micrometer?");
}

TEST_CASE("the truth of a case is checked like any other entry") {
  const auto truth = [](const std::string& cause, int cylinder, const std::string& grade) {
    soot::Job job;
    job.family = "hagmoss-4";
    job.sheet.emplace();
    job.sheet->truth = {{cause, cylinder, grade}};
    return to_string(faults_of(hagmoss(), job));
  };
  CHECK(truth("lifter-one", 3, "late-gross") == "");
  CHECK(truth("lifter-on", 3, "late-gross") ==
        "'lifter-on' is no cause of hagmoss-4, did you mean lifter-one?");
  CHECK(truth("lifter-one", 3, "late") ==
        "lifter-one has no grade 'late' (it has late-slight, late-gross, early-slight, "
        "early-gross)");
  CHECK(truth("lifter-one", 0, "late-gross") ==
        "lifter-one belongs to a cylinder (expected which, 1 to 4)");
}

TEST_CASE("cylinders that are not there or do not belong") {
  CHECK(told(JobMaker{}.gauge("lifter-depth", 7, "29.2 mm")) ==
        "cylinder 7 of lifter-depth: hagmoss-4 has cylinders 1 to 4");
  CHECK(told(JobMaker{}.gauge("lifter-depth", -1, "29.2 mm")) ==
        "cylinder -1 of lifter-depth: hagmoss-4 has cylinders 1 to 4");
  CHECK(told(JobMaker{}.gauge("lifter-depth", 0, "29.2 mm")) ==
        "lifter-depth belongs to a cylinder (expected which, 1 to 4)");
  CHECK(told(JobMaker{}.saw("hard-start", 2)) ==
        "hard-start belongs to the whole engine (expected no cylinder)");
  CHECK(told(JobMaker{}.done("set-lifter")) ==
        "set-lifter belongs to a cylinder (expected which, 1 to 4)");
  CHECK(told(JobMaker{}.done("set-lifters", {2})) ==
        "set-lifters belongs to the whole engine (expected no cylinder)");
}

TEST_CASE("units that are missing or of another kind") {
  CHECK(told(JobMaker{}.gauge("lifter-depth", 3, "29.41")) ==
        "lifter-depth: '29.41' has no unit (expected a length in mm, in, thou, um, cm, m, ft)");
  CHECK(told(JobMaker{}.gauge("lifter-depth", 3, "29.41 deg")) ==
        "lifter-depth: '29.41 deg' is an angle (expected a length in mm, in, thou, um, cm, m, ft)");
}

TEST_CASE("a value that no engine of the kind has") {
  CHECK(told(JobMaker{}.gauge("lifter-depth", 3, "29.41 in")) ==
        "lifter-depth: 29.41 in is 747.01 mm, which no engine of this kind has (expected 10.00 mm "
        "to 80.00 mm)");
  soot::ReadingTaken good = JobMaker{}.gauge("lifter-depth", 3, "29.41 mm").job().readings[0];
  CHECK_FALSE(absurdity_of(hagmoss(), good));
}

TEST_CASE("an uncertainty must be above nothing and a length") {
  soot::Job job = JobMaker{}.gauge("lifter-depth", 3, "29.41 mm").job();
  const auto with = [&](const std::string& uncertainty) {
    job.readings[0].uncertainty = soot::read_measure(uncertainty).value();
    return to_string(faults_of(hagmoss(), job));
  };
  CHECK(with("0.02 mm") == "");
  CHECK(with("0 mm") == "lifter-depth: uncertainty 0 mm is not above 0");
  CHECK(with("0.02") ==
        "lifter-depth: '0.02' has no unit (expected a length in mm, in, thou, um, cm, m, ft)");
}

TEST_CASE("a fault in a file carries its place and is one of data") {
  soot::Job job = JobMaker{}.saw("hard-strat").job();
  CHECK(faults_of(hagmoss(), job).front().kind == soot::Kind::use);
  job.observations[0].place = {"job.toml", 3, 1};
  const soot::Problems faults = faults_of(hagmoss(), job);
  CHECK(faults.front().kind == soot::Kind::data);
  CHECK(to_string(faults) ==
        "job.toml:3:1: 'hard-strat' is no symptom of hagmoss-4, did you mean hard-start?");
}

TEST_CASE("all faults of a job are told") {
  CHECK(faults_of(hagmoss(), JobMaker{}
                                 .history("brand-new")
                                 .saw("hard-strat")
                                 .gauge("lifter-depth", 7, "29 bar")
                                 .done("set-liftr", {1})
                                 .job())
            .size() == 5);
}

TEST_CASE("a family that nobody serves") {
  const auto engine = soot::test::real_bench().engine("hagmos-4");
  REQUIRE_FALSE(engine);
  CHECK(to_string(engine.error()) == "no family is called 'hagmos-4', did you mean hagmoss-4?");
  const auto other = soot::test::real_bench().engine("trawler");
  REQUIRE_FALSE(other);
  CHECK(to_string(other.error()) ==
        "no family is called 'trawler' (there are grebemouth-6, hagmoss-4, "
        "lodefoot-1, sallowness-2, skarnfell-4, unplated-2, wickerlode-3)");
}
