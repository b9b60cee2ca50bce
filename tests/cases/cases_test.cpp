// The prepared cases of cases/, put to the program with the knowledge as it stands. Those made up
// for the class are demonstration data, so what is proved here is that evidence and knowledge agree
// with each other: the planted fault comes first. Those retold from a published page (they cite it)
// really happened, and rank wherever they rank; the figure is printed.
#include "core/knowledge/job_reader.hpp"
#include "core/workbench/bench.hpp"
#include "core/workbench/case_run.hpp"
#include "tests/places.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <filesystem>
#include <memory>
#include <set>
#include <string>
#include <vector>

namespace soot {
namespace {

const std::filesystem::path cases_dir = std::filesystem::path{source_dir()} / "cases";

std::unique_ptr<Bench> open_bench() {
  const std::filesystem::path plugins = std::filesystem::path{binary_dir()} / "plugins";
  Result<std::unique_ptr<Bench>> bench =
      Bench::open({std::filesystem::path{source_dir()} / "knowledge", cases_dir, {plugins}, {}});
  REQUIRE_MESSAGE(bench, to_string(bench ? Problems{} : bench.error()));
  return std::move(*bench);
}

CaseReport run(const std::string& name) {
  const std::unique_ptr<Bench> bench = open_bench();
  Result<CaseReport> report = run_case(*bench, cases_dir, name);
  REQUIRE_MESSAGE(report, to_string(report ? Problems{} : report.error()));
  return std::move(*report);
}

std::vector<CaseTitle> titles() {
  const CaseShelf shelf = shelf_of(cases_dir);
  REQUIRE_MESSAGE(shelf.problems.empty(), to_string(shelf.problems));
  return shelf.titles;
}

CaseSheet sheet_of(const std::string& name) {
  const Result<Job> job = load_job(cases_dir / (name + ".toml"));
  REQUIRE_MESSAGE(job, to_string(job ? Problems{} : job.error()));
  REQUIRE_MESSAGE(job->sheet, name << " has no [case]");
  return *job->sheet;
}

// What the grade says besides how bad it is: "late-gross" is late, "gross" says nothing.
std::string direction_of(std::string grade) {
  for (const std::string size : {"slight", "gross"})
    if (grade.ends_with(size)) grade.resize(grade.size() - size.size());
  return grade;
}

std::string likeliest_grade(const CauseLine& line) {
  const auto most = std::max_element(
      line.grades.begin(), line.grades.end(),
      [](const GradeChance& a, const GradeChance& b) { return a.probability < b.probability; });
  return most == line.grades.end() ? std::string{} : most->id;
}

void check_truth_first(const std::string& name, const std::string& planted) {
  const CaseReport report = run(name);
  REQUIRE(report.truth.size() == 1);
  const TruthLine& truth = report.truth.front();
  const CauseLine& first = report.rank.by_cause.front();
  CHECK(truth.cause == planted);
  CHECK(truth.rank == 1);
  CHECK(first.id == truth.cause);
  CHECK(first.cylinder == truth.cylinder);
  CHECK(direction_of(likeliest_grade(first)) == direction_of(truth.grade));
  MESSAGE(name << ": " << planted << " ranked " << truth.rank << ", " << truth.probability);
}

}  // namespace

TEST_CASE("late by a lifter on one cylinder ranks first") {
  check_truth_first("late-lifter", "lifter-one");
}

TEST_CASE("all late by a tooth ranks first") {
  check_truth_first("tooth-out", "gear-tooth-out");
}

TEST_CASE("set on the wrong flank ranks first") {
  check_truth_first("wrong-flank", "wrong-flank");
}

TEST_CASE("plunger foot worn ranks first") {
  check_truth_first("worn-foot", "plunger-foot-worn");
}

TEST_CASE("all plungers worn ranks first") {
  check_truth_first("worn-plungers", "plungers-worn-all");
}

TEST_CASE("weak nozzle ranks first") {
  check_truth_first("weak-nozzle", "nop-low");
}

TEST_CASE("rack a tooth out on one pump ranks first") {
  check_truth_first("rack-tooth", "rack-wrong-one");
}

TEST_CASE("nothing wrong but the mark ranks first") {
  check_truth_first("moved-mark", "tc-mark-wrong");
}

TEST_CASE("every case made up for the class has its test above") {
  std::set<std::string> made_up;
  for (const CaseTitle& entry : titles())
    if (sheet_of(entry.name).source.empty()) made_up.insert(entry.name);
  const std::set<std::string> tested{"late-lifter",   "tooth-out",   "wrong-flank", "worn-foot",
                                     "worn-plungers", "weak-nozzle", "rack-tooth",  "moved-mark"};
  CHECK(made_up == tested);
}

TEST_CASE("every case has a title a story a route and a truth") {
  for (const CaseTitle& entry : titles()) {
    CAPTURE(entry.name);
    const CaseSheet sheet = sheet_of(entry.name);
    CHECK_FALSE(sheet.title.empty());
    CHECK_FALSE(sheet.story.empty());
    CHECK_FALSE(sheet.route.empty());
    CHECK_FALSE(sheet.truth.empty());
  }
}

TEST_CASE("every truth is a cause a cylinder and a grade of its engine") {
  const std::unique_ptr<Bench> bench = open_bench();
  for (const CaseTitle& entry : titles()) {
    CAPTURE(entry.name);
    const Result<Engine> engine = bench->engine(entry.family);
    REQUIRE(engine);
    for (const Truth& truth : sheet_of(entry.name).truth) {
      CAPTURE(truth.cause);
      const Cause* cause = find_id(engine->knowledge.causes, truth.cause);
      REQUIRE(cause != nullptr);
      CHECK(std::count(cause->grades.begin(), cause->grades.end(), truth.grade) == 1);
      CHECK((truth.cylinder >= 1) == (cause->scope == Scope::cylinder));
      CHECK(truth.cylinder <= engine->family.cylinders);
    }
  }
}

TEST_CASE("the retold faults run and say where they rank") {
  int retold = 0;
  for (const CaseTitle& entry : titles()) {
    const CaseSheet sheet = sheet_of(entry.name);
    if (sheet.source.empty()) continue;
    CAPTURE(entry.name);
    ++retold;
    CHECK(sheet.source.starts_with("http"));
    const CaseReport report = run(entry.name);
    CHECK_FALSE(report.rank.impossible);
    REQUIRE(report.truth.size() == sheet.truth.size());
    for (const TruthLine& truth : report.truth)
      CHECK(truth.rank >= 1);
    const TruthLine& truth = report.truth.front();
    MESSAGE(entry.name << ": " << truth.cause << " ranked " << truth.rank << " by cause, "
                       << truth.probability);
  }
  CHECK(retold >= 3);
}

}  // namespace soot
