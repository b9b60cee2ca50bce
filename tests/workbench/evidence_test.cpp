// What of a job's lines speaks, and how: silenced reports, the last of two, the way onto the mark.
#include "core/workbench/evidence_builder.hpp"
#include "tests/workbench/real_bench.hpp"

#include <doctest/doctest.h>

#include <cmath>

using soot::CameUp;
using soot::test::hagmoss;
using soot::test::JobMaker;

namespace {

const soot::BuiltNetwork& network() {
  static const soot::Result<soot::BuiltNetwork> built = build_network(hagmoss(), std::nullopt);
  REQUIRE_MESSAGE(built, (built ? "" : to_string(built.error())));
  return *built;
}

soot::BuiltEvidence evidence(const JobMaker& maker) {
  REQUIRE(maker.job().observations.size() + maker.job().readings.size() > 0);
  return build_evidence(hagmoss(), network(), maker.job(), all_standing(maker.job()));
}

// "hard-start+ smoke-white-": what is left of the looks, in order.
std::string kept(const soot::BuiltEvidence& built) {
  std::string out;
  for (const soot::infer::Finding& finding : built.evidence.findings)
    out += (out.empty() ? "" : " ") + network().symptoms[finding.symptom]->id +
           (finding.present ? "+" : "-");
  return out;
}

using Words = std::vector<std::string>;

}  // namespace

TEST_CASE("a special form silences the general report") {
  const auto built = evidence(JobMaker{}.saw("hard-start").saw("hard-start-cold"));
  CHECK(kept(built) == "hard-start-cold+");
  CHECK(built.remarks == Words{"hard-start is covered by the more exact report beside it"});
  REQUIRE(built.findings.size() == 1);
  CHECK(built.findings[0].entry == 1);
}

TEST_CASE("a special form silences the general one two steps away") {
  const auto built = evidence(JobMaker{}.saw("smoke-unspecified").saw("smoke-white-cold"));
  CHECK(kept(built) == "smoke-white-cold+");
}

TEST_CASE("a general report stays beside a special form that is absent") {
  const auto built = evidence(JobMaker{}.saw("hard-start").missed("hard-start-cold"));
  CHECK(kept(built) == "hard-start+ hard-start-cold-");
  CHECK(built.remarks.empty());
}

TEST_CASE("a special form that is there overrules a general one that is not") {
  CHECK(kept(evidence(JobMaker{}.missed("hard-start").saw("hard-start-cold"))) ==
        "hard-start-cold+");
}

TEST_CASE("two special forms of one general report both speak") {
  CHECK(kept(evidence(JobMaker{}.saw("hard-start-cold").missed("hard-start-hot"))) ==
        "hard-start-cold+ hard-start-hot-");
}

TEST_CASE("a reading silences the finding that it measures") {
  std::string finding;
  for (const soot::Symptom& symptom : hagmoss().knowledge.symptoms)
    if (symptom.measured_by == Words{"compression"} && symptom.scope == soot::Scope::cylinder)
      finding = symptom.id;
  REQUIRE_FALSE(finding.empty());
  const auto built =
      evidence(JobMaker{}.saw(finding, 2).saw(finding, 3).gauge("compression", 2, "18 bar"));
  CHECK(kept(built) == finding + "+");
  REQUIRE(built.evidence.findings.size() == 1);
  CHECK(built.evidence.findings[0].cylinder == 3);
  CHECK(built.remarks == Words{finding + " on cylinder 2 is covered by the reading of it"});
}

TEST_CASE("of two reports the last counts and that is said") {
  const auto built = evidence(JobMaker{}.saw("smoke-white").missed("smoke-white"));
  CHECK(kept(built) == "smoke-white-");
  CHECK(built.remarks == Words{"smoke-white is reported both present and absent: the last line "
                               "counts (absent)"});
  CHECK(evidence(JobMaker{}.saw("smoke-white").saw("smoke-white")).remarks.empty());
}

TEST_CASE("an unsure report is soft") {
  const auto built = evidence(JobMaker{}.saw("hard-start").unsure().saw("smoke-white"));
  REQUIRE(built.evidence.findings.size() == 2);
  REQUIRE(built.evidence.findings[0].unsure);
  CHECK(built.evidence.findings[0].unsure->missed > 0);
  CHECK_FALSE(built.evidence.findings[1].unsure);
}

TEST_CASE("a reading is counted in the model unit with the uncertainty of its instrument") {
  const auto built = evidence(JobMaker{}.gauge("lifter-depth", 3, "1.16 in"));
  REQUIRE(built.evidence.readings.size() == 1);
  const soot::infer::Reading& reading = built.evidence.readings[0];
  CHECK(reading.lower == doctest::Approx(29.464));
  CHECK(reading.is_exact());
  CHECK(reading.sd == doctest::Approx(0.025));
  CHECK(reading.shift == 0);
  CHECK(reading.cylinder == 3);
}

TEST_CASE("a bound is open on one side") {
  const auto built =
      evidence(JobMaker{}.gauge("compression", 1, ">20 bar").gauge("compression", 2, "<5 bar"));
  REQUIRE(built.evidence.readings.size() == 2);
  CHECK(built.evidence.readings[0].lower == doctest::Approx(20));
  CHECK(std::isinf(built.evidence.readings[0].upper));
  CHECK(std::isinf(built.evidence.readings[1].lower));
  CHECK(built.evidence.readings[1].upper == doctest::Approx(5));
}

// The family's train: two meshes of at most 0.45 mm on a gear of 60 mm radius, so 0.859 deg at the
// crank; at 0.12 mm of depth a degree 0.1031 mm. Turned back onto the mark the reading looks early
// (less deep) by anything between nothing and that: mean half of it, sd a twelfth's root of it. In
// doubt it is one half of that and one half nothing: mean a quarter, second moment a sixth.
TEST_CASE("a mark that was not come up to shifts the reading and widens it") {
  const double lash_mm = 2 * 0.45 / 60 * 180 / 3.14159265358979 * 0.12;
  const auto no = evidence(JobMaker{}.gauge("lifter-depth", 3, "29.2 mm", CameUp::no));
  CHECK(no.evidence.readings[0].shift == doctest::Approx(-lash_mm / 2));
  CHECK(no.evidence.readings[0].sd ==
        doctest::Approx(std::hypot(0.025, lash_mm / std::sqrt(12.0))));
  const auto doubt = evidence(JobMaker{}.gauge("lifter-depth", 3, "29.2 mm", CameUp::doubtful));
  CHECK(doubt.evidence.readings[0].shift == doctest::Approx(-lash_mm / 4));
  CHECK(doubt.evidence.readings[0].sd ==
        doctest::Approx(std::hypot(0.025, lash_mm * std::sqrt(1.0 / 6 - 1.0 / 16))));
}

TEST_CASE("how the mark was reached does not matter to what no gear moves") {
  const auto built = evidence(JobMaker{}.gauge("compression", 3, "28 bar", CameUp::no));
  CHECK(built.evidence.readings[0].shift == 0);
}

TEST_CASE("a line that no longer stands is not counted") {
  const JobMaker maker = JobMaker{}.saw("hard-start").gauge("lifter-depth", 3, "29.2 mm");
  soot::Standing standing = all_standing(maker.job());
  standing.observations[0] = false;
  standing.readings[0] = false;
  const auto built = build_evidence(hagmoss(), network(), maker.job(), standing);
  CHECK(built.evidence.findings.empty());
  CHECK(built.evidence.readings.empty());
}

TEST_CASE("a known history is evidence and an unknown one is not") {
  CHECK(evidence(JobMaker{}.history("just-rebuilt").saw("hard-start")).evidence.history == 0);
  CHECK_FALSE(evidence(JobMaker{}.saw("hard-start")).evidence.history);
}
