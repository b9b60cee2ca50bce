// Degrees to millimetres and back, and what makes both impossible.
#include "core/calc/flank.hpp"

#include "tests/calc/engines.hpp"
#include "tests/near.hpp"

#include <doctest/doctest.h>

using soot::Family;
using soot::calc::Flank;

TEST_CASE("lowness and lateness are each others inverse") {
  for (const Family& family : {soot::test::hagmoss(), soot::test::tangent_engine()}) {
    const auto law = soot::test::law_of(family);
    const Flank flank = Flank::of(family, law.get()).value();
    for (double late_deg = -9.75; late_deg < 10; late_deg += 0.5) {
      const double low_mm = flank.low_for_late_mm(late_deg);
      CHECK(flank.late_for_low_deg(low_mm).value() == soot::test::near(late_deg, 1e-9));
      const double shift_mm = flank.depth_shift_mm(late_deg);
      CHECK(flank.late_for_depth_shift_deg(shift_mm).value() == soot::test::near(late_deg, 1e-9));
    }
  }
}

TEST_CASE("slopes of the flank are those of numerical differences") {
  const Family family = soot::test::tangent_engine();
  const auto law = soot::test::law_of(family);
  const Flank flank = Flank::of(family, law.get()).value();
  constexpr double step = 1e-5;
  CHECK(flank.rate_at_closing() ==
        soot::test::near((flank.low_for_late_mm(step) - flank.low_for_late_mm(-step)) / (2 * step),
                         1e-7));
  CHECK(flank.rate_at_top() ==
        soot::test::near((flank.depth_shift_mm(step) - flank.depth_shift_mm(-step)) / (2 * step),
                         1e-7));
}

TEST_CASE("on a tangent cam one rate is off by half a degree at six") {
  // Worked example: R_b + r 45 mm, 5 mm lift; a linear -6.0 deg is -5.6, a linear +6.0 is +6.5
  // (early positive there). Computed from the tangent law, no publication.
  const Family family = soot::test::tangent_engine();
  const auto law = soot::test::law_of(family);
  const Flank flank = Flank::of(family, law.get()).value();
  const double six_deg_mm = 6 * flank.rate_at_closing();
  CHECK(flank.late_for_low_deg(six_deg_mm).value() == soot::test::near(5.6, 0.01));
  CHECK(flank.late_for_low_deg(-six_deg_mm).value() == soot::test::near(-6.5, 0.01));
}

TEST_CASE("constant rate makes everything a proportion") {
  const Family family = soot::test::hagmoss();
  const auto law = soot::test::law_of(family);
  const Flank flank = Flank::of(family, law.get()).value();
  // Design values of the family: 0.10 mm is 0.83 deg, a tooth of 12 deg is 1.44 mm.
  CHECK(flank.late_for_low_deg(0.10).value() == soot::test::near(0.83, 0.005));
  CHECK(flank.depth_shift_mm(12) == soot::test::near(1.44, 1e-9));
  const Flank straight = Flank::of(family, nullptr).value();
  CHECK(straight.is_straight());
  CHECK(straight.depth_shift_mm(12) == soot::test::near(1.44, 1e-9));
}

TEST_CASE("late is one sign everywhere") {
  // Oracles P10, P11 and P15 (workshop manuals): what lowers the plunger against its port (a
  // thicker shim under the pump) is late, what raises it early.
  const Family family = soot::test::tangent_engine();
  const auto law = soot::test::law_of(family);
  const Flank flank = Flank::of(family, law.get()).value();
  CHECK(flank.late_for_low_deg(0.05).value() > 0);
  CHECK(flank.late_for_low_deg(-0.05).value() < 0);
  CHECK(flank.depth_shift_mm(1) > 0);
}

TEST_CASE("past the end of the flank there is no answer") {
  const Family family = soot::test::hagmoss();
  const auto law = soot::test::law_of(family);
  const Flank flank = Flank::of(family, law.get()).value();
  CHECK_FALSE(flank.late_for_low_deg(-2.8));
  CHECK_FALSE(flank.late_for_low_deg(7.2));
  CHECK_FALSE(flank.late_for_depth_shift_deg(4.6));
}

TEST_CASE("a flank needs a law or a rate and a moment of closing") {
  Family family = soot::test::tangent_engine();
  auto none = Flank::of(family, nullptr);
  REQUIRE_FALSE(none);
  CHECK(none.error().front().text ==
        "family tangent gives no lift law (expected one, or a figure lift-rate)");
  const auto law = soot::test::law_of(family);
  family.figures.erase("static-timing");
  none = Flank::of(family, law.get());
  REQUIRE_FALSE(none);
  CHECK(none.error().front().text ==
        "family tangent does not say when its ports close (expected a figure static-timing)");
  soot::test::put(family, "pre-stroke", "5 mm");
  CHECK(Flank::of(family, law.get())->rate_at_closing() == soot::test::near(0.2113, 0.0005));
  soot::test::put(family, "static-timing", "120 deg");
  none = Flank::of(family, law.get());
  REQUIRE_FALSE(none);
  CHECK(none.error().front().text ==
        "the lift law of family tangent stands still 120 deg before top, where the port closes "
        "(expected its rising flank there)");
}
