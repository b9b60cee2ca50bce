// Causes that look alike must part: with a complaint that both explain, the outcome of the check
// that a mechanic would make moves the odds between them by at least a factor five, each way in its
// own direction. The pairs and what their checks show: pairs.toml (common practice, no published
// source).
#include "core/infer/answer.hpp"
#include "core/model/words.hpp"
#include "core/workbench/inquiry.hpp"
#include "tests/judges/ranking.hpp"
#include "tests/judges/shipped.hpp"
#include "tests/lookalikes/pair_reader.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <numeric>

namespace soot::judges {
namespace {

const double least_shift = std::log(5.0);

PlainEngines& engines() {
  return shipped_engines("plugins/tabular/families/hagmoss-4.toml");
}

const Engine& engine_of(const Lookalikes& pair) {
  const auto features = engines().with(engines().plain(4), pair.needs);
  const Result<const Engine*> engine = engines().engine(4, features);
  REQUIRE_MESSAGE(engine, to_string(engine ? Problems{} : engine.error()));
  return **engine;
}

struct Asked {
  Inquiry inquiry;
  infer::Posterior posterior;
};

Asked ask(const Engine& engine, const std::vector<std::vector<SeenLine>>& seen) {
  Result<Inquiry> inquiry = inquire(engine, job_of(engine, seen));
  REQUIRE_MESSAGE(inquiry, to_string(inquiry ? Problems{} : inquiry.error()));
  Result<infer::Posterior> posterior =
      infer::posterior(inquiry->built.network, inquiry->evidence.evidence, asked_limits);
  REQUIRE_MESSAGE(posterior, to_string(posterior ? Problems{} : posterior.error()));
  REQUIRE_FALSE(posterior->impossible);
  return {std::move(*inquiry), std::move(*posterior)};
}

// Of the cause on its cylinder, in its direction; of an instrument, whichever it is.
double chance(const Asked& asked, const SuspectName& suspect) {
  const infer::Posterior& posterior = asked.posterior;
  double sum = 0;
  if (suspect.cause == instrument_cause)
    sum =
        std::accumulate(posterior.instrument_wrong.begin(), posterior.instrument_wrong.end(), sum);
  for (const infer::Instance& instance : posterior.instances) {
    if (instance.cause >= asked.inquiry.built.causes.size()) continue;
    const Cause& cause = *asked.inquiry.built.causes[instance.cause];
    if (cause.id != suspect.cause || instance.cylinder != suspect.cylinder) continue;
    for (std::size_t g = 0; g < cause.grades.size(); ++g)
      if (suspect.direction.empty() || grade_goes(cause.grades[g], suspect.direction))
        sum += instance.grade[g + 1];
  }
  REQUIRE_MESSAGE(sum > 0, suspect.cause << " is not possible here");
  return sum;
}

double log_odds(const Asked& asked, const Lookalikes& pair) {
  return std::log(chance(asked, pair.one) / chance(asked, pair.other));
}

bool answers(const Check& check, const SeenLine& line) {
  return std::count(check.answers.begin(), check.answers.end(), line.id) +
             std::count(check.reads.begin(), check.reads.end(), line.id) >
         0;
}

void check_belongs(const Engine& engine, const PartingChecks& parting) {
  std::vector<const Check*> checks;
  for (const std::string& id : parting.checks) {
    checks.push_back(find_id(engine.knowledge.checks, id));
    REQUIRE_MESSAGE(checks.back() != nullptr, id);
  }
  for (const auto* lines : {&parting.one, &parting.other})
    for (const SeenLine& line : *lines)
      CHECK_MESSAGE(std::any_of(checks.begin(), checks.end(),
                                [&](const Check* check) { return answers(*check, line); }),
                    "nothing answers " << line.id);
}

}  // namespace

TEST_CASE("look-alikes part by the check that a mechanic would make") {
  const Result<std::vector<Lookalikes>> pairs =
      load_lookalikes(source_dir() + "/tests/lookalikes/pairs.toml");
  REQUIRE_MESSAGE(pairs, to_string(pairs ? Problems{} : pairs.error()));
  CHECK(pairs->size() == 35);
  for (const Lookalikes& pair : *pairs) {
    CAPTURE(pair.one.cause);
    CAPTURE(pair.other.cause);
    const Engine& engine = engine_of(pair);
    const double told = log_odds(ask(engine, {pair.told}), pair);
    for (const PartingChecks& parting : pair.parted_by) {
      CAPTURE(parting.checks.front());
      CHECK(parting.checks.size() == 1);
      check_belongs(engine, parting);
      const double for_one = log_odds(ask(engine, {pair.told, parting.one}), pair) - told;
      const double for_other = told - log_odds(ask(engine, {pair.told, parting.other}), pair);
      CHECK_MESSAGE(for_one >= least_shift, "factor " << std::exp(for_one));
      CHECK_MESSAGE(for_other >= least_shift, "factor " << std::exp(for_other));
    }
  }
}

TEST_CASE("a complaint of look-alikes speaks for both") {
  const Result<std::vector<Lookalikes>> pairs =
      load_lookalikes(source_dir() + "/tests/lookalikes/pairs.toml");
  REQUIRE(pairs);
  for (const Lookalikes& pair : *pairs) {
    if (pair.one.cause == instrument_cause) continue;  // nothing without a reading
    CAPTURE(pair.one.cause);
    CAPTURE(pair.other.cause);
    const Engine& engine = engine_of(pair);
    const Asked before = ask(engine, {});
    const Asked after = ask(engine, {pair.told});
    CHECK(chance(after, pair.one) > chance(before, pair.one));
    CHECK(chance(after, pair.other) > chance(before, pair.other));
  }
}

}  // namespace soot::judges
