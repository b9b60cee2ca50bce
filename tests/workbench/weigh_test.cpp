// What speaks for and against a cause, and trade facts that only the steps tell.
#include "core/workbench/rank.hpp"
#include "core/workbench/steps_builder.hpp"
#include "tests/workbench/real_bench.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

using soot::test::hagmoss;
using soot::test::JobMaker;

namespace {

double weight_of(const soot::WeighAnswer& answer, const std::string& id, int cylinder) {
  for (const soot::WeightLine& line : answer.lines)
    if (line.evidence.id == id && line.evidence.cylinder == cylinder) return line.log_odds;
  FAIL("no such line");
  return 0;
}

}  // namespace

TEST_CASE("two readings of one depth are weighed together") {
  JobMaker job = JobMaker{}.history("just-rebuilt").saw("hard-start-cold");
  for (int c = 1; c <= 4; ++c)
    job.gauge("lifter-depth", c, c == 3 ? "29.41 mm" : "29.20 mm");
  job.gauge("lifter-depth", 3, "29.40 mm");
  const auto inquiry = inquire(hagmoss(), job.job());
  REQUIRE(inquiry);
  const soot::WeighAnswer answer = weigh(hagmoss(), *inquiry, "lifter-one", 3).value();
  CHECK(answer.probability > 0.5);
  CHECK(answer.prior < 0.1);
  CHECK(weight_of(answer, "lifter-depth", 3) > std::log(10));
  CHECK(std::count_if(answer.lines.begin(), answer.lines.end(), [](const soot::WeightLine& line) {
          return line.evidence.id == "lifter-depth" && line.evidence.cylinder == 3;
        }) == 1);
}

TEST_CASE(
    "the weights of a cause and of its prior make its probability when only one line counts") {
  const auto inquiry =
      inquire(hagmoss(), JobMaker{}.history("ordinary").saw("hard-start-cold").job());
  REQUIRE(inquiry);
  const soot::WeighAnswer answer = weigh(hagmoss(), *inquiry, "cold-ambient", 0).value();
  const double odds = answer.probability / (1 - answer.probability);
  const double before = answer.prior / (1 - answer.prior);
  REQUIRE(answer.lines.size() == 1);
  CHECK(std::abs(std::log(odds / before) - answer.lines.front().log_odds) < 1e-6);
}

// Common practice, no published source for 60 deg; published figures end at 45 (TM 5-6115-593-34,
// p. 299), the greatest is taken.
TEST_CASE("after an overrun the steps send back at least 60 deg and up again") {
  const soot::StepsSheet sheet = steps_of(hagmoss(), "come-up").value();
  CHECK(std::any_of(sheet.lines.begin(), sheet.lines.end(), [](const soot::StepsSheet::Line& line) {
    return line.text.find("60 deg") != std::string::npos;
  }));
}

TEST_CASE("minutes are said for one cylinder and for all") {
  const soot::StepsSheet sheet = steps_of(hagmoss(), "set-lifter").value();
  CHECK(sheet.minutes < sheet.all_minutes);
  CHECK(sheet.cylinders == 4);
}
