// The prepared cases of cases/, put to the program with the knowledge as it stands. Each says how
// far down its truth may rank, and is held to that. Those made up for the class are demonstration
// data, so what is proved here is that evidence and knowledge agree with each other. Those retold
// from a published page (they cite it) really happened.
#include "core/knowledge/job_reader.hpp"
#include "core/model/words.hpp"
#include "core/workbench/case_run.hpp"
#include "tests/workbench/real_bench.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <filesystem>
#include <string>
#include <vector>

namespace soot {
namespace {

std::filesystem::path cases_dir() {
  return std::filesystem::path{source_dir()} / "cases";
}

CaseReport run(const std::string& name) {
  Result<CaseReport> report = run_case(test::real_bench(), cases_dir(), name);
  REQUIRE_MESSAGE(report, to_string(report ? Problems{} : report.error()));
  return std::move(*report);
}

std::vector<CaseTitle> titles() {
  const CaseShelf shelf = shelf_of(cases_dir());
  REQUIRE_MESSAGE(shelf.problems.empty(), to_string(shelf.problems));
  return shelf.titles;
}

Job job_of(const std::string& name) {
  Result<Job> job = load_job(cases_dir() / (name + ".toml"));
  REQUIRE_MESSAGE(job, to_string(job ? Problems{} : job.error()));
  REQUIRE_MESSAGE(job->sheet, name << " has no [case]");
  return std::move(*job);
}

bool is_retold(const Job& job) {
  return !job.sheet->source.empty();
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

// Where the knowledge itself parts cylinders and directions, they must come out too.
void check_named(const CaseReport& report, const TruthLine& truth) {
  const auto line = std::find_if(report.rank.by_cause.begin(), report.rank.by_cause.end(),
                                 [&](const CauseLine& c) { return c.id == truth.cause; });
  REQUIRE(line != report.rank.by_cause.end());
  CHECK(line->cylinder == truth.cylinder);
  if (!line->grades.empty())
    CHECK(direction_of(likeliest_grade(*line)) == direction_of(truth.grade));
}

}  // namespace

TEST_CASE("every case ranks its truth as it says") {
  for (const CaseTitle& entry : titles()) {
    CAPTURE(entry.name);
    const Job job = job_of(entry.name);
    const CaseReport report = run(entry.name);
    CHECK_FALSE(report.rank.impossible);
    for (const TruthLine& truth : report.truth) {
      CAPTURE(truth.cause);
      MESSAGE(entry.name << ": " << truth.cause << " ranked " << truth.rank << ", "
                         << truth.probability);
      if (truth.cause == not_listed_cause) continue;
      CHECK(truth.within >= 1);
      CHECK(truth.rank >= 1);
      CHECK(truth.rank <= static_cast<std::size_t>(truth.within));
      if (!is_retold(job)) check_named(report, truth);
    }
  }
}

TEST_CASE("what is not in the list is left to something else") {
  const CaseReport report = run("not-in-the-list");
  REQUIRE(report.truth.size() == 1);
  CHECK(report.truth.front().cause == not_listed_cause);
  CHECK(report.truth.front().rank == 0);
  CHECK(report.truth.front().probability > 0.5);
  CHECK(report.rank.by_cause.front().probability < 0.5);
}

TEST_CASE("there are cases for a class and ten that really happened") {
  const std::vector<CaseTitle> all = titles();
  const auto retold = std::count_if(
      all.begin(), all.end(), [](const CaseTitle& entry) { return is_retold(job_of(entry.name)); });
  CHECK(all.size() >= 24);
  CHECK(retold >= 10);
}

TEST_CASE("every case has a title a story a route and a truth") {
  for (const CaseTitle& entry : titles()) {
    CAPTURE(entry.name);
    const CaseSheet sheet = *job_of(entry.name).sheet;
    CHECK_FALSE(sheet.title.empty());
    CHECK(sheet.story.size() > 200);
    CHECK(sheet.route.size() > 200);
    CHECK_FALSE(sheet.truth.empty());
    CHECK((sheet.source.empty() || sheet.source.starts_with("http")));
  }
}

TEST_CASE("every truth is a cause a cylinder and a grade of its engine") {
  for (const CaseTitle& entry : titles()) {
    CAPTURE(entry.name);
    const Result<Engine> engine = test::real_bench().engine(entry.family);
    REQUIRE(engine);
    const Job job = job_of(entry.name);
    for (const Truth& truth : job.sheet->truth) {
      CAPTURE(truth.cause);
      if (truth.cause == not_listed_cause) continue;
      const Cause* cause = find_id(engine->knowledge.causes, truth.cause);
      REQUIRE(cause != nullptr);
      CHECK(std::count(cause->grades.begin(), cause->grades.end(), truth.grade) == 1);
      CHECK((truth.cylinder >= 1) == (cause->scope == Scope::cylinder));
      CHECK(truth.cylinder <= engine->family.cylinders);
    }
  }
}

}  // namespace soot
