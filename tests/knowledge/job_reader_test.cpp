#include "core/knowledge/job_reader.hpp"

#include <doctest/doctest.h>

#include <random>
#include <string>

namespace soot {
namespace {

const std::string good_job = R"(family = "hagmoss-4"
history = "just-rebuilt"
at = "2031-04-02T09:10:00Z"
tools = ["depth-micrometer", "feelers"]

[state]
covers = ["pump-cover"]
head-off = true
running = false
hot = true

[[symptom]]
id = "hard-start-cold"
present = true
unsure = true
complaint = true

[[symptom]]
id = "spray-wet"
present = false
cylinder = 3

[[reading]]
quantity = "lifter-depth"
cylinder = 3
value = "29.41 mm"
uncertainty = "0.02 mm"
came-up = "doubtful"

[[work]]
correction = "lifter-set"
cylinders = [3]
note = "raised 1.2 flats"

[[reading]]
quantity = "firing-pressure"
cylinder = 3
value = ">20 bar"

[[proof]]
result = "not-tested"
note = "no fuel"

[case]
title = "one deep lifter"
story = "Slow to start since Easter."
route = "cut out, then depth"
source = "invented"
[[case.cause]]
id = "lifter-one"
cylinder = 3
grade = "late-gross"
[[case.cause]]
id = "nozzle-dribble"
cylinder = 3
)";

/// What is said of a text, the excerpts left out, one complaint a line.
std::string job_complaints(const std::string& text) {
  const Result<Job> job = read_job("job.toml", text);
  REQUIRE_FALSE(job);
  Problems problems = job.error();
  for (Problem& problem : problems) {
    CHECK(problem.kind == Kind::data);
    problem.excerpt.clear();
  }
  return to_string(problems);
}

std::string with(const std::string& lines) {
  return "family = \"hagmoss-4\"\n" + lines;
}

TEST_CASE("every key of a job file reaches the job") {
  const Result<Job> read = read_job("job.toml", good_job);
  REQUIRE_MESSAGE(read, to_string(read.error()));
  const Job& job = *read;
  CHECK(job.family == "hagmoss-4");
  CHECK(job.history == "just-rebuilt");
  CHECK(job.at == "2031-04-02T09:10:00Z");
  CHECK(job.tools == std::vector<std::string>{"depth-micrometer", "feelers"});
  CHECK(job.state.covers_off == std::vector<std::string>{"pump-cover", "head-off"});
  CHECK_FALSE(job.state.running);
  CHECK(job.state.hot);

  REQUIRE(job.observations.size() == 2);
  CHECK(job.observations[0].symptom == "hard-start-cold");
  CHECK(job.observations[0].cylinder == 0);
  CHECK(job.observations[0].present);
  CHECK(job.observations[0].unsure);
  CHECK(job.observations[0].complaint);
  CHECK(job.observations[0].place.file == "job.toml");
  CHECK(job.observations[0].place.line == 12);
  CHECK(job.observations[1].symptom == "spray-wet");
  CHECK(job.observations[1].cylinder == 3);
  CHECK_FALSE(job.observations[1].present);
  CHECK_FALSE(job.observations[1].unsure);

  REQUIRE(job.readings.size() == 2);
  CHECK(job.readings[0].quantity == "lifter-depth");
  CHECK(job.readings[0].cylinder == 3);
  CHECK(job.readings[0].value.as_written == "29.41 mm");
  CHECK(job.readings[0].value.model() == 29.41);
  REQUIRE(job.readings[0].uncertainty);
  CHECK(job.readings[0].uncertainty->as_written == "0.02 mm");
  CHECK(job.readings[0].came_up == CameUp::doubtful);
  CHECK(job.readings[1].value.bound == Bound::above);
  CHECK_FALSE(job.readings[1].uncertainty);
  CHECK(job.readings[1].came_up == CameUp::yes);

  REQUIRE(job.work.size() == 1);
  CHECK(job.work[0].correction == "lifter-set");
  CHECK(job.work[0].cylinders == std::vector<int>{3});
  CHECK(job.work[0].note == "raised 1.2 flats");
  REQUIRE(job.proofs.size() == 1);
  CHECK(job.proofs[0].result == Proof::not_tested);
  CHECK(job.proofs[0].note == "no fuel");

  REQUIRE(job.sheet);
  CHECK(job.sheet->title == "one deep lifter");
  CHECK(job.sheet->story == "Slow to start since Easter.");
  CHECK(job.sheet->route == "cut out, then depth");
  CHECK(job.sheet->source == "invented");
  REQUIRE(job.sheet->truth.size() == 2);
  CHECK(job.sheet->truth[0].cause == "lifter-one");
  CHECK(job.sheet->truth[0].cylinder == 3);
  CHECK(job.sheet->truth[0].grade == "late-gross");
  CHECK(job.sheet->truth[1].grade == "present");
}

TEST_CASE("the order in the file is the order in time over all kinds") {
  const Job job = read_job("job.toml", good_job).value();
  CHECK(job.observations[0].line == 1);
  CHECK(job.observations[1].line == 2);
  CHECK(job.readings[0].line == 3);
  CHECK(job.work[0].line == 4);
  CHECK(job.readings[1].line == 5);
  CHECK(job.proofs[0].line == 6);

  const Job inline_job =
      read_job("j", with("symptom = [{id = \"a\"}, {id = \"b\", present = false}]")).value();
  CHECK(inline_job.observations[0].line == 1);
  CHECK(inline_job.observations[1].line == 2);
}

TEST_CASE("a family alone is a job with nothing known") {
  const Job job = read_job("job.toml", with("")).value();
  CHECK_FALSE(job.history);
  CHECK(job.at == "");
  CHECK_FALSE(job.tools);
  CHECK_FALSE(job.sheet);
  CHECK(job.observations.empty());
  CHECK(read_job("job.toml", with("tools = []")).value().tools == std::vector<std::string>{});
  CHECK(read_job("job.toml", with("at = \"2031-04-02\"")).value().at == "2031-04-02");
}

TEST_CASE("a symptom given both present and absent is kept twice") {
  const Job job =
      read_job("j",
               with("[[symptom]]\nid = \"knock\"\n[[symptom]]\nid = \"knock\"\npresent = false"))
          .value();
  REQUIRE(job.observations.size() == 2);
  CHECK(job.observations[0].present);
  CHECK_FALSE(job.observations[1].present);
}

TEST_CASE("the head is off once however often it is said") {
  const Job job = read_job("j", with("[state]\ncovers = [\"head-off\"]\nhead-off = true")).value();
  CHECK(job.state.covers_off == std::vector<std::string>{"head-off"});
}

TEST_CASE("a fault is told with its place and what was expected") {
  struct Fault {
    std::string lines;
    std::string said;
  };
  const std::vector<Fault> faults{
      {"histroy = \"ordinary\"",
       "job.toml:2:1: histroy is no key known here, did you mean history?"},
      {"history = \"rebuilt\"",
       "job.toml:2:11: history is 'rebuilt' (expected just-rebuilt, just-serviced, long-service, "
       "long-storage, ordinary)"},
      {"history = \"just-rebuild\"",
       "job.toml:2:11: history is 'just-rebuild' (expected just-rebuilt, just-serviced, "
       "long-service, long-storage, ordinary), did you mean just-rebuilt?"},
      {"at = \"easter\"",
       "job.toml:2:6: at is 'easter' (expected a time in UTC, as 2031-04-02T09:10:00Z)"},
      {"tools = \"feelers\"", "job.toml:2:9: tools is a text (expected a list of texts)"},
      {"state = 3", "job.toml:2:9: state is a whole number (expected a table)"},
      {"[state]\nhot = \"yes\"", "job.toml:3:7: hot is a text (expected true or false)"},
      {"[[symptom]]\npresent = true", "job.toml:2:1: id is missing (expected a text)"},
      {"[[symptom]]\nid = \"\"", "job.toml:3:6: id is empty"},
      {"[[symptom]]\nid = \"knock\"\npresent = 1",
       "job.toml:4:11: present is a whole number (expected true or false)"},
      {"[[symptom]]\nid = \"knock\"\npresent = false\ncomplaint = true",
       "job.toml:5:13: an absent symptom is no complaint (expected present = true)"},
      {"[[symptom]]\nid = \"knock\"\ncylinder = 0",
       "job.toml:4:12: 0 is no cylinder (expected a number from 1, left out for the engine as a "
       "whole)"},
      {"[[symptom]]\nid = \"knock\"\ncylinder = 4294967299",
       "job.toml:4:12: 4294967299 is no cylinder (expected a number from 1, left out for the "
       "engine as a whole)"},
      {"[[reading]]\nquantity = \"lifter-depth\"",
       "job.toml:2:1: value is missing (expected a number with its unit, as \"29.41 mm\")"},
      {"[[reading]]\nquantity = \"lifter-depth\"\nvalue = 29.41",
       "job.toml:4:9: value is a number (expected a text in quotes)"},
      {"[[reading]]\nquantity = \"lifter-depth\"\nvalue = \"29,41 mm\"",
       "job.toml:4:9: value: '29,41 mm' has a decimal comma (expected a point, as 29.41 mm)"},
      {"[[reading]]\nquantity = \"lifter-depth\"\nvalue = \"nan mm\"",
       "job.toml:4:9: value: 'nan mm' is not a number (expected one with its unit, as 29.41 mm)"},
      {"[[reading]]\nquantity = \"lifter-depth\"\nvalue = \"1e400 mm\"",
       "job.toml:4:9: value: '1e400 mm' is too large or too small a number"},
      {"[[reading]]\nquantity = \"lifter-depth\"\nvalue = \"1 mm\"\nuncertainty = \"<0.1 mm\"",
       "job.toml:5:15: uncertainty '<0.1 mm' is a bound (expected a figure)"},
      {"[[reading]]\nquantity = \"lifter-depth\"\nvalue = \"1 mm\"\ncame-up = \"maybe\"",
       "job.toml:5:11: came-up is 'maybe' (expected yes, no, doubtful)"},
      {"[[work]]\ncorrection = \"lifter-set\"\ncylinders = [3, -1]",
       "job.toml:4:13: -1 is no cylinder (expected a number from 1, left out for the engine as a "
       "whole)"},
      {"[[proof]]\nresult = \"better\"",
       "job.toml:3:10: result is 'better' (expected cured, improved, unchanged, worse, "
       "not-tested)"},
      {"[case]\nstory = \"x\"", "job.toml:2:1: title is missing (expected a text)"},
      {"[case]\ntitle = \"x\"\n[[case.cause]]\ncylinder = 1",
       "job.toml:4:1: id is missing (expected a text)"},
  };
  for (const Fault& fault : faults)
    CHECK(job_complaints(with(fault.lines)) == fault.said);
  CHECK(job_complaints("history = \"ordinary\"") ==
        "job.toml:1:1: family is missing (expected a text)");
}

TEST_CASE("one run tells all that is wrong") {
  CHECK(job_complaints(with("history = 1\n[[symptom]]\nid = 2\n[[reading]]\nunit = \"mm\"")) ==
        "job.toml:2:11: history is a whole number (expected a text in quotes)\n"
        "job.toml:4:6: id is a whole number (expected a text in quotes)\n"
        "job.toml:5:1: quantity is missing (expected a text)\n"
        "job.toml:5:1: value is missing (expected a number with its unit, as \"29.41 mm\")\n"
        "job.toml:6:1: unit is no key known here");
}

TEST_CASE("a file that is not there is told by name") {
  const Result<Job> job = load_job("no/such/job.toml");
  REQUIRE_FALSE(job);
  CHECK(to_string(job.error()) == "no/such/job.toml: no such file");
}

TEST_CASE("any damage to a good file gives a job or a complaint with its line") {
  std::mt19937 random{310402};
  const auto below = [&](std::size_t most) { return static_cast<std::size_t>(random() % most); };
  std::string splinters = "\"'[]{}=#,.\n\r\t -+0123456789eE\\<>xuUT:Z\x01\x7f\xc3\xa4\xff";
  splinters.push_back('\0');
  int jobs = 0;
  int complaints_told = 0;
  for (int round = 0; round < 10000; ++round) {
    std::string text = good_job;
    for (std::size_t changes = 1 + below(4); changes > 0; --changes) {
      const std::size_t at = below(text.size() + 1);
      switch (below(5)) {
        case 0:
          text.replace(at, 1, 1, splinters[below(splinters.size())]);
          break;
        case 1:
          text.insert(at, 1, splinters[below(splinters.size())]);
          break;
        case 2:
          text.erase(at, 1 + below(20));
          break;
        case 3:
          text.insert(at, good_job.substr(below(good_job.size()), below(60)));
          break;
        default:
          text.resize(at);
      }
    }
    CAPTURE(text);
    const Result<Job> job = read_job("job.toml", text);
    if (job) {
      ++jobs;
      CHECK_FALSE(job->family.empty());
    } else {
      ++complaints_told;
      REQUIRE_FALSE(job.error().empty());
      CHECK(job.error().front().place.line > 0);
      CHECK_FALSE(job.error().front().text.empty());
    }
  }
  CHECK(jobs > 0);
  CHECK(complaints_told > 0);
}

}  // namespace
}  // namespace soot
