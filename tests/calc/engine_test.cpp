// Gears, crank and rim against published pairs and the families' derived figures.
#include "core/calc/crank.hpp"
#include "core/calc/firing.hpp"
#include "core/calc/train.hpp"
#include "tests/calc/engines.hpp"
#include "tests/near.hpp"

#include <doctest/doctest.h>

#include <cmath>

namespace calc = soot::calc;
using soot::Family;
using soot::test::in_mm;

namespace {

constexpr calc::CrankGear six_inch{6 * in_mm, 12 * in_mm};

Family with_teeth(int strokes, double pump_teeth) {
  Family family;
  family.strokes = strokes;
  soot::test::put(family, "pump-teeth", fmt::format("{}", pump_teeth));
  return family;
}

}  // namespace

TEST_CASE("piston drop of a published pair") {
  // Oracles K1 and K2: 19 deg is 0.2032 in, 5.16 mm (static injection-timing procedure; stroke
  // 6.000 in and rod 12.000 in from memory).
  CHECK(std::fabs(calc::piston_drop_mm(six_inch, 19) / in_mm - 0.2032) < 0.0003);
  CHECK(std::fabs(calc::angle_of_drop_deg(six_inch, 5.161).value() - 19) < 0.05);
}

TEST_CASE("piston drops worked by hand") {
  // Computed with the formula of Heywood (1988), eq. 2.4 to 2.6; 12 in stroke, 24 in rod.
  const calc::CrankGear gear{12 * in_mm, 24 * in_mm};
  CHECK(calc::piston_drop_mm(gear, 5) / in_mm == soot::test::near(0.0285, 0.002));
  CHECK(calc::piston_drop_mm(gear, 10) / in_mm == soot::test::near(0.1138, 0.001));
  CHECK(calc::piston_drop_mm(gear, 20) / in_mm == soot::test::near(0.4497, 0.001));
  // Hagmoss four, design value: 15 deg is 4.00 mm.
  CHECK(calc::piston_drop_mm({190, 399}, 15) == soot::test::near(4.00, 0.002));
}

TEST_CASE("piston drop and angle are each others inverse and the slope is their slope") {
  for (double angle_deg = 1; angle_deg < 180; angle_deg += 3.5) {
    const double drop_mm = calc::piston_drop_mm(six_inch, angle_deg);
    CHECK(calc::angle_of_drop_deg(six_inch, drop_mm).value() == soot::test::near(angle_deg, 1e-9));
    constexpr double step = 1e-5;
    const double difference = (calc::piston_drop_mm(six_inch, angle_deg + step) -
                               calc::piston_drop_mm(six_inch, angle_deg - step)) /
                              (2 * step);
    CHECK(calc::piston_slope_mm_per_deg(six_inch, angle_deg) == soot::test::near(difference, 1e-6));
  }
  CHECK_FALSE(calc::angle_of_drop_deg(six_inch, -0.1));
  CHECK_FALSE(calc::angle_of_drop_deg(six_inch, 6.1 * in_mm));
}

TEST_CASE("an indicator is blind for a degree about the top") {
  // Computed table, 0.001 in: 5.5 / 9.84 in 1.37 deg, 12 / 24 in 0.94 deg; checked here against the
  // exact piston position, not against its own formula.
  for (const calc::CrankGear gear :
       {calc::CrankGear{5.5 * in_mm, 9.84 * in_mm}, calc::CrankGear{12 * in_mm, 24 * in_mm}}) {
    const double half_deg = calc::dwell_deg(gear, 0.001 * in_mm);
    CHECK(calc::piston_drop_mm(gear, half_deg) == soot::test::near(0.001 * in_mm, 0.001));
  }
  CHECK(calc::dwell_deg({5.5 * in_mm, 9.84 * in_mm}, 0.0254) == soot::test::near(1.37, 0.005));
}

TEST_CASE("rim arc") {
  // Oracle K4: 1 deg is 0.1 in on the rim (service manual p. 51); the radius is then 5.730 in.
  CHECK(std::fabs(calc::angle_of_arc_deg(2 * 5.730 * in_mm, 0.1 * in_mm) - 1) < 0.001);
  // Oracle K3: marks 5 deg apart measure 2.0 cm, so 4.0 cm is 10 deg (service manual p. 7-23); the
  // rim that the first pair implies answers the second.
  const double diameter_mm = 20.0 / calc::rim_arc_mm(1, 5);
  CHECK(std::fabs(calc::angle_of_arc_deg(diameter_mm, 40) - 10) < 0.1);
  // Hagmoss four, design value: 4.89 mm a degree on 560 mm.
  CHECK(calc::rim_arc_mm(560, 1) == soot::test::near(4.89, 0.001));
}

TEST_CASE("one tooth out") {
  // Oracles K7 and K8 (arithmetic, no publication found): 48 teeth, 15 and 7.5 deg. K6: with equal
  // teeth on cam and crank (TM 5-3810-303-24, two-stroke) both ways of reckoning agree.
  CHECK(calc::tooth_deg(with_teeth(4, 48)).value() == 15);
  CHECK(calc::tooth_deg(with_teeth(2, 48)).value() == 7.5);
  Family two = with_teeth(2, 36);
  const double from_pump_deg = calc::tooth_deg(two).value();
  soot::test::put(two, "crank-teeth", "36");
  CHECK(calc::tooth_deg(two).value() == from_pump_deg);
  // Design values: Hagmoss 12.00, from either gear.
  Family four = soot::test::hagmoss();
  CHECK(calc::tooth_deg(four).value() == 12);
  four.figures.erase("crank-teeth");
  CHECK(calc::tooth_deg(four).value() == 12);
  CHECK_FALSE(calc::tooth_deg(Family{}));
}

TEST_CASE("lash of the train at the crank") {
  // Design values: Hagmoss 0.38 deg new at most, 0.86 at the limit, 60 mm gear radius.
  const Family family = soot::test::hagmoss();
  CHECK(calc::crank_gear_radius_mm(family).value() == 60);
  CHECK(calc::lash_new_deg(family).value() == soot::test::near(0.38, 0.01));
  CHECK(calc::lash_limit_deg(family).value() == soot::test::near(0.86, 0.005));
  CHECK_FALSE(calc::lash_limit_deg(Family{}));
  // Reckoned at the cam's gear, 0.010 in on a radius of 6 in is 0.19 crank deg in a four-stroke;
  // the crank's gear has half that radius.
  Family small;
  soot::test::put(small, "crank-teeth", "30");
  soot::test::put(small, "gear-module", "0.2 in");
  soot::test::put(small, "meshes", "1");
  CHECK(calc::lash_deg(small, 0.010 * in_mm).value() == soot::test::near(0.19, 0.01));
}

TEST_CASE("setting order of four cylinders fired 1-3-4-2") {
  // Common practice, no published source: set in firing order, half a turn apart; the mark serves
  // 1 with 4 and 2 with 3.
  Family family;
  family.cylinders = 4;
  family.firing_order = {1, 3, 4, 2};
  const auto settings = calc::setting_order(family).value();
  REQUIRE(settings.size() == 4);
  const std::map<int, int> companions{{1, 4}, {4, 1}, {2, 3}, {3, 2}};
  for (std::size_t i = 0; i < 4; ++i) {
    CHECK(settings[i].cylinder == family.firing_order[i]);
    CHECK(settings[i].crank_deg == 180.0 * static_cast<double>(i));
    CHECK(settings[i].same_mark == std::vector<int>{companions.at(settings[i].cylinder)});
  }
}

TEST_CASE("setting order of other engines") {
  Family three;
  three.cylinders = 3;
  three.firing_order = {1, 3, 2};
  CHECK(calc::setting_order(three).value()[1].crank_deg == 240);
  CHECK(calc::setting_order(three).value()[1].same_mark.empty());
  Family six;
  six.cylinders = 6;
  six.firing_order = {1, 5, 3, 6, 2, 4};
  CHECK(calc::setting_order(six).value()[0].same_mark == std::vector<int>{6});
  Family two;
  two.strokes = 2;
  two.cylinders = 2;
  two.firing_order = {1, 2};
  CHECK(calc::setting_order(two).value()[1].crank_deg == 180);
  CHECK(calc::setting_order(two).value()[1].same_mark.empty());
  Family one;
  one.cylinders = 1;
  one.firing_order = {1};
  CHECK(calc::firing_interval_deg(4, 1) == 720);
  CHECK(calc::setting_order(one).value().size() == 1);
}

TEST_CASE("an impossible firing order is refused") {
  Family family = soot::test::hagmoss();
  family.firing_order = {1, 2, 2, 3};
  const auto bad = calc::setting_order(family);
  REQUIRE_FALSE(bad);
  CHECK(bad.error().front().text ==
        "firing order 1-2-2-3 of family hagmoss-4 (expected each of 1 to 4 once)");
  family.firing_order.clear();
  CHECK_FALSE(calc::setting_order(family));
  CHECK_FALSE(calc::setting_order(Family{}));
}
