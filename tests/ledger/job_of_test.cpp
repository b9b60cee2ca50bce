#include "core/ledger/job_of.hpp"

#include <doctest/doctest.h>

namespace soot::ledger::test {
namespace {

const Header mill_header{
    4, {"hagmoss-4", "1", "tabular", "1", "mill"}, "2031-04-02T10:00:00Z", true};

std::vector<Entry> entries_of(const std::vector<Payload>& payloads) {
  std::vector<Entry> entries;
  for (const Payload& payload : payloads)
    entries.push_back({.line = 10 * (static_cast<long>(entries.size()) + 1),
                       .at = "2031-04-02T10:00:00Z",
                       .payload = payload,
                       .crossed_out = {}});
  return entries;
}

TEST_CASE("a record without lines is a job with nothing known") {
  const Job job = job_of(mill_header, {});
  CHECK(job.family == "hagmoss-4");
  CHECK(job.at == "2031-04-02T10:00:00Z");
  CHECK_FALSE(job.history);
  CHECK(job.observations.empty());
  CHECK_FALSE(job.tools);
  CHECK_FALSE(job.sheet);
}

TEST_CASE("lines become what was seen and measured and done in their order") {
  Gauged depth{"lifter-depth", 3, read_measure("29.41 mm").value(), read_measure("20 um").value(),
               CameUp::no};
  const Job job = job_of(mill_header, entries_of({
                                          Saw{"knock", 2, true, true, true},
                                          depth,
                                          Done{"lifter-set", {3}, "1.2 flats", "", 40},
                                          Proved{Proof::improved, "still rough"},
                                          Noted{"aside"},
                                          Skipped{"spill-timing", "no pipe"},
                                          Closed{},
                                      }));
  REQUIRE(job.observations.size() == 1);
  const Observation& seen = job.observations[0];
  CHECK(seen.symptom == "knock");
  CHECK(seen.cylinder == 2);
  CHECK(seen.present);
  CHECK(seen.unsure);
  CHECK(seen.complaint);
  CHECK(seen.line == 10);
  CHECK(seen.place.file == "ledger");
  CHECK(seen.place.line == 10);
  REQUIRE(job.readings.size() == 1);
  CHECK(job.readings[0].quantity == "lifter-depth");
  CHECK(job.readings[0].cylinder == 3);
  CHECK(job.readings[0].value.as_written == "29.41 mm");
  CHECK(job.readings[0].uncertainty->as_written == "20 um");
  CHECK(job.readings[0].came_up == CameUp::no);
  CHECK(job.readings[0].line == 20);
  REQUIRE(job.work.size() == 1);
  CHECK(job.work[0].correction == "lifter-set");
  CHECK(job.work[0].cylinders == std::vector<int>{3});
  CHECK(job.work[0].note == "1.2 flats");
  CHECK(job.work[0].line == 30);
  REQUIRE(job.proofs.size() == 1);
  CHECK(job.proofs[0].result == Proof::improved);
  CHECK(job.proofs[0].note == "still rough");
  CHECK(job.proofs[0].line == 40);
}

TEST_CASE("the last history told counts and words alone do not unsay it") {
  CHECK(job_of(mill_header, entries_of({Told{"smokes", "ordinary"}, Told{"", "just-rebuilt"},
                                        Told{"smokes white", {}}}))
            .history == "just-rebuilt");
}

TEST_CASE("a symptom seen both present and absent is kept twice with the last one last") {
  const Job job =
      job_of(mill_header, entries_of({Saw{"knock"}, Saw{"knock", 0, false, false, false}}));
  REQUIRE(job.observations.size() == 2);
  CHECK(job.observations[0].present);
  CHECK_FALSE(job.observations[1].present);
  CHECK(job.observations[0].line < job.observations[1].line);
}

TEST_CASE("what is crossed out does not count") {
  std::vector<Entry> entries = entries_of({Told{"smokes", "ordinary"}, Told{"", "long-storage"},
                                           Saw{"knock"}, Proved{Proof::cured, ""}});
  for (const std::size_t i : {1UL, 2UL, 3UL})
    entries[i].crossed_out = CrossedOut{50, "2031-04-02T11:00:00Z", "mistake"};
  const Job job = job_of(mill_header, entries);
  CHECK(job.history == "ordinary");
  CHECK(job.observations.empty());
  CHECK(job.proofs.empty());
}

}  // namespace
}  // namespace soot::ledger::test
