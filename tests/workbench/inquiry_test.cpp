// What corrections and proving runs leave of a job's lines and of the causes they mend.
#include "core/workbench/inquiry.hpp"

#include "core/model/words.hpp"
#include "tests/workbench/real_bench.hpp"

#include <doctest/doctest.h>

#include <numeric>

using soot::Proof;
using soot::test::hagmoss;
using soot::test::JobMaker;

namespace {

soot::Inquiry asked(const JobMaker& maker) {
  auto inquiry = inquire(hagmoss(), maker.job());
  REQUIRE_MESSAGE(inquiry, (inquiry ? "" : to_string(inquiry.error())));
  return std::move(*inquiry);
}

double chance(const soot::Inquiry& inquiry, const std::string& cause, int cylinder) {
  const auto posterior = soot::infer::posterior(inquiry.built.network, inquiry.evidence.evidence);
  REQUIRE_MESSAGE(posterior, (posterior ? "" : to_string(posterior.error())));
  for (const soot::infer::Instance& instance : posterior->instances)
    if (inquiry.built.network.causes[instance.cause].id == cause && instance.cylinder == cylinder)
      return instance.present();
  FAIL("no instance of " << cause);
  return 0;
}

// The prior that a correction left of one instance; -1 if it left none.
double left_prior(const soot::Inquiry& inquiry, const std::string& cause, int cylinder) {
  const std::size_t index = inquiry.built.cause_index.find(cause)->second;
  for (const auto& prior : inquiry.built.network.instance_priors)
    if (prior.cause == index && prior.cylinder == cylinder)
      return std::accumulate(prior.grade.begin(), prior.grade.end(), 0.0);
  return -1;
}

JobMaker deep_lifter() {
  return JobMaker{}
      .history("just-rebuilt")
      .saw("hard-start-cold")
      .gauge("lifter-depth", 1, "29.20 mm")
      .gauge("lifter-depth", 3, "29.41 mm")
      .gauge("compression", 3, "28 bar");
}

}  // namespace

TEST_CASE("a job with faults is not asked about") {
  const auto inquiry = inquire(hagmoss(), JobMaker{}.saw("hard-strat").job());
  REQUIRE_FALSE(inquiry);
  CHECK(to_string(inquiry.error()) ==
        "'hard-strat' is no symptom of hagmoss-4, did you mean hard-start?");
}

TEST_CASE("a mended cause keeps what its cure leaves of it") {
  const double before = chance(asked(deep_lifter()), "lifter-one", 3);
  REQUIRE(before > 0.3);
  const soot::Inquiry after = asked(deep_lifter().done("set-lifter", {3}));
  const soot::Correction& correction = get_id(hagmoss().knowledge.corrections, "set-lifter");
  double cure = 0;
  for (const soot::Mend& mend : correction.mends)
    if (mend.cause == "lifter-one") cure = mend.cure;
  REQUIRE(cure > 0.5);
  CHECK(left_prior(after, "lifter-one", 3) == doctest::Approx((1 - cure) * before));
  CHECK(left_prior(after, "lifter-one", 1) == -1);
}

TEST_CASE("what the work reaches counts only from later lines") {
  const soot::Inquiry after = asked(deep_lifter().done("set-lifter", {3}));
  CHECK_FALSE(after.standing.observations[0]);  // a lifter can do a hard start
  CHECK(after.standing.readings[0]);            // the depth of another cylinder
  CHECK_FALSE(after.standing.readings[1]);      // the depth that was set
  CHECK(after.standing.readings[2]);            // compression: no lifter moves it
  CHECK(after.evidence.evidence.findings.empty());
  CHECK(after.evidence.evidence.readings.size() == 2);
}

TEST_CASE("a line after the work counts") {
  const soot::Inquiry after =
      asked(deep_lifter().done("set-lifter", {3}).gauge("lifter-depth", 3, "29.20 mm"));
  CHECK(after.standing.readings[3]);
  CHECK(after.evidence.evidence.readings.size() == 3);
  CHECK(chance(after, "lifter-one", 3) < 0.02);
}

TEST_CASE("work brings the faults that work brings") {
  const soot::Inquiry after = asked(deep_lifter().done("set-lifter", {3}));
  const soot::Correction& correction = get_id(hagmoss().knowledge.corrections, "set-lifter");
  REQUIRE_FALSE(correction.brings.empty());
  for (const std::string& id : correction.brings) {
    const soot::Cause& cause = get_id(hagmoss().knowledge.causes, id);
    const double rebuilt = std::accumulate(cause.prior[0].begin(), cause.prior[0].end(), 0.0);
    REQUIRE(soot::histories[0] == "just-rebuilt");
    CHECK_MESSAGE(left_prior(after, id, cause.scope == soot::Scope::engine ? 0 : 3) ==
                      doctest::Approx(rebuilt),
                  id);
  }
}

TEST_CASE("a proving run reports on the complaint") {
  const soot::Inquiry cured = asked(deep_lifter().done("set-lifter", {3}).proved(Proof::cured));
  CHECK(cured.is_cured);
  REQUIRE(cured.evidence.evidence.findings.size() == 1);
  CHECK_FALSE(cured.evidence.evidence.findings[0].present);
  const soot::Inquiry same = asked(deep_lifter().done("set-lifter", {3}).proved(Proof::unchanged));
  CHECK_FALSE(same.is_cured);
  REQUIRE(same.evidence.evidence.findings.size() == 1);
  CHECK(same.evidence.evidence.findings[0].present);
  const soot::Inquiry better = asked(deep_lifter().done("set-lifter", {3}).proved(Proof::improved));
  REQUIRE(better.evidence.evidence.findings.size() == 1);
  CHECK(better.evidence.evidence.findings[0].unsure.has_value());
  const soot::Inquiry untested =
      asked(deep_lifter().done("set-lifter", {3}).proved(Proof::not_tested));
  CHECK(untested.evidence.evidence.findings.empty());
}

TEST_CASE("a complaint that comes back after the cure undoes it") {
  const soot::Inquiry back =
      asked(deep_lifter().done("set-lifter", {3}).proved(Proof::cured).saw("hard-start-cold"));
  CHECK_FALSE(back.is_cured);
}

TEST_CASE("the complaint is what is marked and else all that is present") {
  soot::Job job = JobMaker{}.saw("hard-start").saw("smoke-white").missed("kick-back").job();
  CHECK(complaints_of(job).size() == 2);
  job.observations[1].complaint = true;
  REQUIRE(complaints_of(job).size() == 1);
  CHECK(complaints_of(job)[0].symptom == "smoke-white");
}
