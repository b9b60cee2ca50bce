// Rack, pinion and helix against worked sizes and facts of the trade.
#include "core/calc/helix.hpp"

#include "tests/calc/engines.hpp"
#include "tests/near.hpp"

#include <doctest/doctest.h>

#include <numbers>

namespace {

using soot::calc::Helix;
using soot::test::near;

soot::Family with_rack() {
  soot::Family family = soot::test::hagmoss();
  soot::test::put(family, "rack-no-delivery", "2.5 mm");
  return family;
}

Helix helix() {
  return Helix::of(with_rack()).value();
}

}  // namespace

TEST_CASE("longer effective stroke is more fuel") {
  // Common practice, no published source.
  double before_mm3 = -1;
  for (double rack_mm = 2.5; rack_mm < 11; rack_mm += 0.5) {
    const double fuel_mm3 = helix().fuel_mm3(helix().stroke_mm(rack_mm));
    CHECK(fuel_mm3 > before_mm3);
    before_mm3 = fuel_mm3;
  }
}

TEST_CASE("at stop the passage stays open for the whole stroke and nothing is delivered") {
  // Common practice, no published source.
  CHECK(helix().stroke_mm(0) == 0);
  CHECK(helix().stroke_mm(2.5) == 0);
  CHECK(helix().fuel_mm3(helix().stroke_mm(0)) == 0);
  CHECK(helix().stroke_mm(2.6) > 0);
}

TEST_CASE("delivery a millimetre of rack by worked sizes") {
  // Assumed sizes worked by hand: 8 mm plunger, lead 14.5 over a pinion of 10 mm give 11.6 mm3 a mm
  // and 36 mm3 a tooth of module 1; 14 mm, 40 over 15: 65.3 and 205.
  const Helix small{14.5, 10, 0, 8, {}};
  CHECK(small.fuel_mm3(small.stroke_mm(1)) == near(11.6, 0.005));
  CHECK(small.fuel_mm3(small.stroke_mm(std::numbers::pi)) == near(36, 0.015));
  const Helix large{40, 15, 0, 14, {}};
  CHECK(large.fuel_mm3(large.stroke_mm(1)) == near(65.3, 0.001));
  CHECK(large.fuel_mm3(large.stroke_mm(std::numbers::pi)) == near(205, 0.002));
}

TEST_CASE("rack and stroke and fuel go there and back") {
  for (double stroke_mm = 0.3; stroke_mm <= 7.2; stroke_mm += 0.3) {
    const double rack_mm = helix().rack_mm(stroke_mm).value();
    CHECK(helix().stroke_mm(rack_mm) == near(stroke_mm, 1e-12));
    CHECK(helix().stroke_for_fuel_mm(helix().fuel_mm3(stroke_mm)) == near(stroke_mm, 1e-12));
  }
  const double step_mm = 1e-4;
  CHECK((helix().stroke_mm(6 + step_mm) - helix().stroke_mm(6 - step_mm)) / (2 * step_mm) ==
        near(helix().stroke_per_rack(), 1e-9));
}

TEST_CASE("no stroke is longer than the lift that is left") {
  CHECK(helix().most_stroke_mm.value() == near(7.2));
  CHECK(helix().stroke_mm(60) == near(7.2));
  CHECK_FALSE(helix().rack_mm(7.3));
  CHECK_FALSE(helix().rack_mm(-0.1));
}

TEST_CASE("a helix that is not given is refused by name") {
  soot::Family family = with_rack();
  family.figures.erase("helix-lead");
  soot::test::put(family, "pinion-radius", "0 mm");
  const auto helix = Helix::of(family);
  REQUIRE_FALSE(helix);
  CHECK(helix.error().front().text ==
        "family hagmoss-4 does not give helix-lead, pinion-radius (expected figures above 0)");
}

TEST_CASE("a tooth of the rack is a figure of the family") {
  soot::Family family = with_rack();
  CHECK(soot::calc::rack_tooth_mm(family) == near(std::numbers::pi));
  soot::test::put(family, "rack-module", "0.8 mm");
  CHECK(soot::calc::rack_tooth_mm(family) == near(0.8 * std::numbers::pi));
  soot::test::put(family, "rack-pitch", "2.5 mm");
  CHECK(soot::calc::rack_tooth_mm(family) == near(2.5));
}
