// The bench as it ships, opened once: the knowledge of the source tree, the plugins of the build.
// And lines of a job in one short call each.
#pragma once

#include "core/model/job.hpp"
#include "core/workbench/bench.hpp"
#include "tests/places.hpp"

#include <doctest/doctest.h>

#include <string>
#include <vector>

namespace soot::test {

inline const Bench& real_bench() {
  static const Result<std::unique_ptr<Bench>> bench =
      Bench::open(Places{source_dir() + "/knowledge",
                         source_dir() + "/cases",
                         {binary_dir() + "/plugins"},
                         {},
                         {},
                         {}});
  REQUIRE_MESSAGE(bench, (bench ? "" : to_string(bench.error())));
  return **bench;
}

inline const Engine& hagmoss() {
  static const Result<Engine> engine = real_bench().engine("hagmoss-4");
  REQUIRE_MESSAGE(engine, (engine ? "" : to_string(engine.error())));
  return *engine;
}

inline const Engine& lodefoot() {
  static const Result<Engine> engine = real_bench().engine("lodefoot-1");
  REQUIRE_MESSAGE(engine, (engine ? "" : to_string(engine.error())));
  return *engine;
}

/// Lines are numbered in the order of the calls.
class JobMaker {
 public:
  explicit JobMaker(std::string family = "hagmoss-4") { job_.family = std::move(family); }

  JobMaker& history(const std::string& word) {
    job_.history = word;
    return *this;
  }
  JobMaker& saw(const std::string& symptom, int cylinder = 0) {
    return look(symptom, cylinder, true);
  }
  JobMaker& missed(const std::string& symptom, int cylinder = 0) {
    return look(symptom, cylinder, false);
  }
  JobMaker& unsure() {
    job_.observations.back().unsure = true;
    return *this;
  }
  JobMaker& gauge(const std::string& quantity, int cylinder, const std::string& value,
                  CameUp came_up = CameUp::yes) {
    ReadingTaken taken;
    taken.quantity = quantity;
    taken.cylinder = cylinder;
    taken.value = read_measure(value).value();
    taken.came_up = came_up;
    taken.line = ++line_;
    job_.readings.push_back(taken);
    return *this;
  }
  JobMaker& done(const std::string& correction, std::vector<int> cylinders = {}) {
    WorkDone work;
    work.correction = correction;
    work.cylinders = std::move(cylinders);
    work.line = ++line_;
    job_.work.push_back(work);
    return *this;
  }
  JobMaker& proved(Proof result) {
    ProvingRun run;
    run.result = result;
    run.line = ++line_;
    job_.proofs.push_back(run);
    return *this;
  }
  JobMaker& tools(std::vector<std::string> ids) {
    job_.tools = std::move(ids);
    return *this;
  }

  const Job& job() const { return job_; }

 private:
  JobMaker& look(const std::string& symptom, int cylinder, bool present) {
    Observation seen;
    seen.symptom = symptom;
    seen.cylinder = cylinder;
    seen.present = present;
    seen.line = ++line_;
    job_.observations.push_back(seen);
    return *this;
  }

  Job job_;
  long line_ = 0;
};

}  // namespace soot::test
