// From engine terms to instruments and back, on an individual pump and an in-line one, four-stroke
// and two-stroke: round trips, and slopes against differences of the exact geometry.
#include "core/calc/crank.hpp"
#include "core/calc/firing.hpp"
#include "core/calc/geometry.hpp"
#include "core/calc/train.hpp"
#include "core/model/words.hpp"
#include "tests/calc/engines.hpp"
#include "tests/near.hpp"

#include <doctest/doctest.h>

#include <cmath>

namespace {

using soot::Family;
using soot::calc::TermResponse;
using soot::test::near;

Family two_stroke() {
  Family family = soot::test::tangent_engine();
  family.strokes = 2;
  family.cylinders = 2;
  family.firing_order = {1, 2};
  for (const auto& [key, text] : std::vector<std::pair<std::string, std::string>>{
           {"stroke", "280 mm"}, {"rod-length", "630 mm"}, {"flywheel-diameter", "1100 mm"}})
    soot::test::put(family, key, text);
  return family;
}

std::vector<TermResponse> all_of(std::string_view word, const Family& family,
                                 const soot::calc::LiftLaw* law) {
  return soot::calc::responses(word, family, law).value();
}

std::optional<TermResponse> response(std::string_view word, std::string_view term,
                                     const Family& family, const soot::calc::LiftLaw* law) {
  for (const TermResponse& one : all_of(word, family, law))
    if (one.term == term) return one;
  return std::nullopt;
}

}  // namespace

TEST_CASE("every response goes there and back") {
  for (const Family& family : {soot::test::hagmoss(), two_stroke()}) {
    const auto law = soot::test::law_of(family);
    for (const std::string_view word : soot::calc::geometry_words)
      for (const TermResponse& one : all_of(word, family, law.get()))
        for (double magnitude = -9.87; magnitude < 10; magnitude += 1.1) {
          CAPTURE(word);
          CAPTURE(one.term);
          // Past the nose the lift stands still, and nothing can be read back from it.
          if (one.at(magnitude) == one.at(magnitude - 0.1)) continue;
          const auto back = one.back(one.at(magnitude));
          REQUIRE(back);
          CHECK(std::fabs(*back - magnitude) < 1e-9);
        }
  }
}

TEST_CASE("nothing comes back from an instrument that does not hear") {
  CHECK_FALSE(TermResponse{"lifter-low", {}, 0}.back(0.1));
  const TermResponse curve{"drive-late", {{0, 0}, {1, 2}}, 0};
  CHECK(curve.back(1).value() == near(0.5));
  CHECK_FALSE(curve.back(2.1));
}

TEST_CASE("the rim reads what the spill angle is along its arc") {
  const Family family = two_stroke();
  const auto law = soot::test::law_of(family);
  const double mm_per_deg = soot::calc::rim_arc_mm(1100, 1);
  CHECK(soot::calc::derived_nominal("rim-arc", family, law.get()).value() == near(15 * mm_per_deg));
  for (const TermResponse& spill : all_of("spill", family, law.get()))
    CHECK(response("rim-arc", spill.term, family, law.get())->at(0.7) ==
          near(mm_per_deg * spill.at(0.7)));
}

TEST_CASE("the piston reads the drive through its own path and hears no mark") {
  const Family family = two_stroke();
  const auto law = soot::test::law_of(family);
  const soot::calc::CrankGear gear{280, 630};
  CHECK(soot::calc::derived_nominal("piston-drop", family, law.get()).value() ==
        near(soot::calc::piston_drop_mm(gear, 15)));
  CHECK_FALSE(response("piston-drop", soot::term::mark_late, family, law.get()));
  const auto drive = response("piston-drop", soot::term::drive_late, family, law.get());
  REQUIRE(drive);
  for (double late_deg = -12; late_deg < 14; late_deg += 0.37) {
    const double exact_mm =
        soot::calc::piston_drop_mm(gear, 15 - late_deg) - soot::calc::piston_drop_mm(gear, 15);
    CHECK(std::fabs(drive->at(late_deg) - exact_mm) < 1e-3);
  }
  // A low lifter moves it through the lift and the path at closing: against small differences.
  constexpr double low_mm = 1e-5;
  const double late_deg = law->angle_deg(5 + low_mm).value() - law->angle_deg(5).value();
  const double exact_mm =
      soot::calc::piston_drop_mm(gear, 15 - late_deg) - soot::calc::piston_drop_mm(gear, 15);
  CHECK(response("piston-drop", soot::term::lifter_low, family, law.get())->at(low_mm) ==
        near(exact_mm, 1e-3));
}

TEST_CASE("instruments whose figures are missing are refused by name") {
  const Family family = soot::test::tangent_engine();
  const auto law = soot::test::law_of(family);
  auto refused = soot::calc::responses("rim-arc", family, law.get());
  REQUIRE_FALSE(refused);
  CHECK(refused.error().front().text == "family tangent gives no flywheel-diameter (expected one)");
  refused = soot::calc::responses("piston-drop", family, law.get());
  REQUIRE_FALSE(refused);
  CHECK(
      refused.error().front().text ==
      "family tangent does not say where its pistons stand when the ports close (expected figures "
      "stroke, rod-length and static-timing)");
}

TEST_CASE("an in-line pump is phased in pump degrees") {
  // Common practice, no published source: four plungers of a four-stroke close 90 pump degrees
  // apart; a two-stroke's camshaft turns with the crank.
  const auto four = soot::calc::setting_order(soot::test::hagmoss()).value();
  CHECK(four[1].crank_deg == 180);
  CHECK(four[1].pump_deg == 90);
  CHECK(four[3].pump_deg == 270);
  const auto two = soot::calc::setting_order(two_stroke()).value();
  CHECK(two[1].crank_deg == 180);
  CHECK(two[1].pump_deg == 180);
}

TEST_CASE("lash on the wrong side is a lifter low by what the cam lifts over it") {
  const Family family = soot::test::hagmoss();
  const auto law = soot::test::law_of(family);
  const auto flank = soot::calc::Flank::of(family, law.get()).value();
  const double lash_deg = soot::calc::lash_limit_deg(family).value();
  CHECK(soot::calc::lash_limit_mm(family, flank).value() ==
        near(law->lift_mm(lash_deg) - law->lift_mm(0)));
  CHECK(soot::calc::lash_limit_mm(family, flank).value() == near(0.103, 0.005));
}
