// Steps and bench forms: this engine's own figures in them, cautions that concern it, and nothing
// twice.
#include "core/report/figure_text.hpp"
#include "core/workbench/form_builder.hpp"
#include "core/workbench/steps_builder.hpp"
#include "tests/workbench/real_bench.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <sstream>

using soot::StepsSheet;
using soot::test::hagmoss;
using soot::test::JobMaker;
using soot::test::lodefoot;

namespace {

bool says(const std::vector<std::string>& lines, std::string_view words) {
  return std::any_of(lines.begin(), lines.end(), [&](const std::string& line) {
    return line.find(words) != std::string::npos;
  });
}

std::string whole(const StepsSheet& sheet) {
  return to_text(sheet, soot::Look{});
}

soot::Figure figure(double value, std::optional<double> tolerance) {
  soot::Figure out;
  out.unit = soot::model_unit(soot::Dimension::length);
  out.value = value;
  out.tolerance = tolerance;
  return out;
}

std::size_t longest_line(const std::string& text) {
  std::size_t longest = 0;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);)
    longest = std::max(longest, line.size());
  return longest;
}

}  // namespace

TEST_CASE("numbers of one figure have the same places") {
  CHECK(print_figure(figure(29.2, 0.05)) == "29.20 mm +/- 0.05");
  CHECK(print_figure(figure(31, std::nullopt)) == "31 mm");
  soot::Figure range;
  range.unit = soot::model_unit(soot::Dimension::pressure);
  range.low = 0.5;
  range.high = 0.9;
  range.least = 0.35;
  CHECK(print_figure(range) == "0.50 to 0.90 bar, least 0.35");
  soot::Figure limit;
  limit.unit = soot::model_unit(soot::Dimension::length);
  limit.most = 0.15;
  CHECK(print_figure(limit) == "most 0.15 mm");
}

TEST_CASE("setting a lifter comes with order angles flats and slack depth of this engine") {
  const StepsSheet sheet = steps_of(hagmoss(), "set-lifter").value();
  CHECK(
      says(sheet.setting, "No. 1 at 0 deg, No. 2 at 180 deg, No. 4 at 360 deg, No. 3 at 540 deg"));
  CHECK(says(sheet.setting, "one mark serves two: 1 with 4, 2 with 3; two proofs of the stroke"));
  // M14 x 1.0 and 0.12 mm a degree (design values): a flat is 0.167 mm, 1.4 deg.
  CHECK(says(sheet.setting, "one flat of the screw is 0.167 mm, 1.4 deg"));
  CHECK(says(sheet.setting, "slack to 29.24 mm (29.20 mm + 0.04 mm"));
  CHECK(says(sheet.setting, "back at least 60 deg"));
  CHECK(steps_of(lodefoot(), "set-lifter").value().setting.size() >= 3);
  CHECK_FALSE(says(steps_of(lodefoot(), "set-lifter").value().setting, "one mark serves two"));
  CHECK(steps_of(hagmoss(), "stop-lever-test").value().setting.empty());
}

TEST_CASE("the setting sends back after an overrun and wants two proofs of the stroke") {
  // Common practice, no published source: 60 deg; published figures end at 45.
  const std::string text = whole(steps_of(hagmoss(), "set-lifter").value());
  CHECK(text.find("back at least 60 deg") != std::string::npos);
  CHECK(text.find("Two proofs that it is") != std::string::npos);
}

TEST_CASE("nobody reads of starting gear that the engine lacks") {
  for (const soot::Engine* engine : {&hagmoss(), &lodefoot()})
    for (const soot::Check& check : engine->knowledge.checks) {
      const std::string text = whole(steps_of(*engine, check.id).value());
      CAPTURE(check.id);
      if (!engine->family.has("air-start"))
        CHECK(text.find("Starting air: bottle shut") == std::string::npos);
      if (!engine->family.has("hand-start"))
        CHECK(text.find("Hand crank: thumb") == std::string::npos);
    }
  CHECK(whole(steps_of(lodefoot(), "start-smoke").value()).find("Hand crank: thumb") !=
        std::string::npos);
}

TEST_CASE("every check and correction tells its time state and what the result means") {
  for (const soot::Check& check : hagmoss().knowledge.checks) {
    const StepsSheet sheet = steps_of(hagmoss(), check.id).value();
    CAPTURE(check.id);
    CHECK_FALSE(sheet.lines.empty());
    CHECK_FALSE(sheet.state.empty());
    CHECK_FALSE((sheet.means.empty() && sheet.tells.empty()));
    CHECK(std::count_if(sheet.remarks.begin(), sheet.remarks.end(), [](const std::string& remark) {
            return remark.find("sootsayer saw") != std::string::npos;
          }) <= 2);
    const std::string text = whole(sheet);
    CHECK(text.find('{') == std::string::npos);
    CHECK(longest_line(text) <= 80);
  }
}

TEST_CASE("rack marks are read without setting anything") {
  const StepsSheet sheet = steps_of(hagmoss(), "rack-marks").value();
  const std::string text = whole(sheet);
  CHECK(text.find("slacken it, bring the mark home") == std::string::npos);
  CHECK(text.find("nothing moved") == std::string::npos);  // that is the procedure's own name
  CHECK(sheet.means.find("Nothing is moved here") != std::string::npos);
}

TEST_CASE("a job whose racks were worked on is asked for the stop test first") {
  const soot::Job worked = JobMaker{}.done("set-lifter", {3}).job();
  const StepsSheet after = steps_of(hagmoss(), "start-smoke", &worked).value();
  REQUIRE_FALSE(after.cautions.empty());
  CHECK(after.cautions.front().find("first prove that it can be stopped") == 0);
  const soot::Job fresh = JobMaker{}.job();
  CHECK_FALSE(
      says(steps_of(hagmoss(), "start-smoke", &fresh).value().cautions, "first prove that it can"));
  CHECK_FALSE(says(steps_of(hagmoss(), "lifter-depth", &worked).value().cautions,
                   "first prove that it can"));
}

TEST_CASE("the bench form has room for slack and tight in two rounds") {
  const soot::BenchForm form = form_of(hagmoss(), "").value();
  const std::string text = to_text(form, soot::Look{});
  CHECK(longest_line(text) <= 80);
  REQUIRE(form.tables.size() == 1);
  CHECK(form.tables[0].rows ==
        std::vector<std::string>{"No. 1 at 0", "No. 2 at 180", "No. 4 at 360", "No. 3 at 540"});
  CHECK(form.tables[0].rounds.size() == 2);
  CHECK(form.tables[0].rounds[0].columns[0].head == "found");
  CHECK(form.tables[0].rounds[0].columns[1].head == "slack");
  CHECK(form.tables[0].rounds[1].columns[1].head == "tight");
  CHECK(says(form.known, "the second round, without a spanner, is the one that counts"));
  CHECK(form.tables[0].title.find("29.20 mm +/- 0.05") != std::string::npos);
}

TEST_CASE("every check and correction makes a form of 80 columns") {
  for (const soot::Check& check : hagmoss().knowledge.checks)
    CHECK_MESSAGE(longest_line(to_text(form_of(hagmoss(), check.id).value(), soot::Look{})) <= 80,
                  check.id);
  for (const soot::Correction& correction : hagmoss().knowledge.corrections)
    CHECK_MESSAGE(
        longest_line(to_text(form_of(hagmoss(), correction.id).value(), soot::Look{})) <= 80,
        correction.id);
  const auto none = form_of(hagmoss(), "lifter-deth");
  REQUIRE_FALSE(none);
  CHECK(to_string(none.error()) ==
        "'lifter-deth' is no check or correction of hagmoss-4, did you mean lifter-depth?");
}
