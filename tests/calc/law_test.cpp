// Lift laws: inverse against law, slope against differences, published rates.
#include "core/base/text.hpp"
#include "core/calc/eccentric.hpp"
#include "tests/calc/engines.hpp"
#include "tests/near.hpp"

#include <doctest/doctest.h>

#include <cmath>

namespace {

using soot::Family;
using soot::LawSpec;
using soot::calc::LiftLaw;

std::vector<std::unique_ptr<LiftLaw>> every_law() {
  std::vector<std::unique_ptr<LiftLaw>> laws;
  laws.push_back(soot::test::law_of(soot::test::hagmoss()));
  laws.push_back(soot::test::law_of(soot::test::tangent_engine()));
  Family two_stroke = soot::test::tangent_engine();
  two_stroke.strokes = 2;
  laws.push_back(soot::test::law_of(two_stroke));
  laws.push_back(std::make_unique<soot::calc::Eccentric>(
      soot::calc::Eccentric::Shape{.eccentricity_mm = 6,
                                   .closing_before_top_deg = 15,
                                   .closing_lift_mm = 3,
                                   .cam_per_crank = 0.5}));
  return laws;
}

std::string complaint(const LawSpec& spec, const Family& family = {}) {
  const auto law = soot::calc::make_law(spec, family);
  return law ? "taken" : soot::to_string(law.error());
}

LawSpec constant_rate() {
  return soot::test::hagmoss().law;
}

}  // namespace

TEST_CASE("angle of a lift and lift of that angle are each others inverse") {
  for (const auto& law : every_law()) {
    const double total_mm = law->lift_mm(360);
    for (int i = 1; i < 200; ++i) {
      const double lift_mm = total_mm * i / 200;
      const auto angle_deg = law->angle_deg(lift_mm);
      REQUIRE(angle_deg);
      CHECK(law->lift_mm(*angle_deg) == soot::test::near(lift_mm, 1e-11));
    }
    CHECK_FALSE(law->angle_deg(0));
    CHECK_FALSE(law->angle_deg(-1));
    CHECK_FALSE(law->angle_deg(total_mm));
    CHECK_FALSE(law->angle_deg(std::nan("")));
  }
}

TEST_CASE("the rate is the slope of the lift") {
  constexpr double step_deg = 1e-5;
  for (const auto& law : every_law())
    for (double lift_mm = 0.5; lift_mm < 9; lift_mm += 0.25) {
      const double angle_deg = law->angle_deg(lift_mm).value();
      const double difference =
          (law->lift_mm(angle_deg + step_deg) - law->lift_mm(angle_deg - step_deg)) /
          (2 * step_deg);
      CHECK(law->rate_mm_per_deg(angle_deg) == soot::test::near(difference, 1e-7));
    }
}

TEST_CASE("off the flank the lifter stands still") {
  for (const auto& law : every_law()) {
    CHECK(law->lift_mm(-300) == 0);
    CHECK(law->rate_mm_per_deg(-300) == 0);
    CHECK(law->rate_mm_per_deg(360) == 0);
    CHECK(law->lift_mm(360) == law->lift_mm(300));
    double before_mm = 0;
    for (int deg = -360; deg <= 360; ++deg) {
      CHECK(law->lift_mm(deg) >= before_mm);
      before_mm = law->lift_mm(deg);
    }
  }
}

TEST_CASE("every law lifts by the closing lift at port closing") {
  const auto laws = every_law();
  CHECK(laws[0]->lift_mm(-15) == soot::test::near(2.8, 1e-12));
  CHECK(laws[1]->lift_mm(-15) == soot::test::near(5, 1e-12));
  CHECK(laws[2]->lift_mm(-15) == soot::test::near(5, 1e-12));
  CHECK(laws[3]->lift_mm(-15) == soot::test::near(3, 1e-12));
}

TEST_CASE("sample cams have the rates worked out by hand") {
  // Assumed sizes; computed with the formulas of textbooks of mechanisms (from memory):
  // R_b 15, r 8, 2.2 mm at closing 0.0985; R_b 30, r 15, 5 mm 0.2113; eccentric 6 mm at 60 deg
  // 6 sin 60 x pi/180 / 2 = 0.0453 (its roller's share, 0.002, is left out).
  Family small;
  soot::test::put_law(small, "tangent-flank",
                      {{"base-radius", "15 mm"},
                       {"roller-radius", "8 mm"},
                       {"closing", "17 deg"},
                       {"closing-lift", "2.2 mm"},
                       {"total", "8 mm"}});
  CHECK(soot::test::law_of(small)->rate_mm_per_deg(-17) == soot::test::near(0.0985, 0.0005));
  CHECK(every_law()[1]->rate_mm_per_deg(-15) == soot::test::near(0.2113, 0.0005));
  CHECK(every_law()[3]->rate_mm_per_deg(-15) == soot::test::near(0.0453, 0.002));
}

TEST_CASE("a cam of ordinary size answers the published shim rates") {
  // The cam's sizes are assumed, the rates published: oracles P10 and P11, 0.05 mm is 0.5 crank deg
  // within 0.1 (workshop manuals); P12, 0.1 mm is 1 deg within 0.2 (manual p. 22); P13, 0.1 mm is
  // 0.5 pump deg, so 1 crank deg within 0.1 (repair manual FU-70).
  soot::calc::TangentFlank law({.base_radius_mm = 15,
                                .roller_radius_mm = 8,
                                .closing_before_top_deg = 18,
                                .closing_lift_mm = 2.2,
                                .total_mm = 8,
                                .cam_per_crank = 0.5});
  const double closing_deg = law.angle_deg(2.2).value();
  CHECK(std::fabs(law.angle_deg(2.25).value() - closing_deg - 0.5) < 0.1);
  CHECK(std::fabs(law.angle_deg(2.3).value() - closing_deg - 1.0) < 0.1);
}

TEST_CASE("the cam of a two-stroke turns as fast as the crank") {
  Family two = soot::test::tangent_engine();
  two.strokes = 2;
  const Family four = soot::test::tangent_engine();
  CHECK(soot::test::law_of(two)->rate_mm_per_deg(-15) ==
        soot::test::near(2 * soot::test::law_of(four)->rate_mm_per_deg(-15)));
}

TEST_CASE("a law that cannot be is refused with what was expected") {
  LawSpec spec = constant_rate();
  spec.place = {"engine.toml", 12, 1};
  spec.name = "constant-rat";
  CHECK(complaint(spec) ==
        "engine.toml:12:1: 'constant-rat' is no lift law (expected constant-rate, tangent-flank, "
        "eccentric, did you mean constant-rate?)");
  spec = constant_rate();
  spec.coefficients.erase("rate");
  CHECK(complaint(spec) == "lift law constant-rate has no rate (expected one, a lift rate)");
  spec = constant_rate();
  spec.coefficients["totl"] = {10, soot::Dimension::length, {}};
  CHECK(complaint(spec) ==
        "lift law constant-rate has no coefficient 'totl' (expected rate, closing, closing-lift, "
        "total, did you mean total?)");
  spec = constant_rate();
  spec.coefficients["rate"].value = -0.1;
  CHECK(complaint(spec) == "rate of lift law constant-rate is -0.1 (expected more than 0)");
  spec.coefficients["rate"].value = std::nan("");
  CHECK(complaint(spec) == "rate of lift law constant-rate is nan (expected more than 0)");
  spec = constant_rate();
  spec.coefficients["closing-lift"].value = 10;
  CHECK(
      complaint(spec) ==
      "closing-lift 10 mm of lift law constant-rate (expected less than the whole lift of 10 mm)");
  spec = constant_rate();
  spec.coefficients["closing"].value = 44;
  CHECK(complaint(spec) ==
        "closing of lift law constant-rate is 44 deg before top (expected at most 40)");
  spec = constant_rate();
  spec.coefficients["closing"] = {15, soot::Dimension::length, {"engine.toml", 15, 11}};
  CHECK(complaint(spec) ==
        "engine.toml:15:11: closing of lift law constant-rate is a length (expected an angle in "
        "deg)");
  spec = constant_rate();
  spec.coefficients["rate"].dimension = soot::Dimension::length;
  CHECK(complaint(spec) ==
        "rate of lift law constant-rate is a length (expected a lift rate in mm/deg, in/deg)");
}

TEST_CASE("several faults of one law are told at once") {
  LawSpec spec = constant_rate();
  spec.coefficients = {{"rate", {0, soot::Dimension::lift_rate, {}}}};
  const auto law = soot::calc::make_law(spec, Family{});
  REQUIRE_FALSE(law);
  CHECK(law.error().size() == 4);
}

TEST_CASE("every listed form can be made from its own keys") {
  for (const auto& form : soot::calc::law_forms()) {
    LawSpec spec;
    spec.name = form.name;
    for (const auto& key : form.keys)
      spec.coefficients[std::string{key.key}] = {5, key.dimension, {}};
    spec.coefficients["closing-lift"].value = 2;
    CHECK(complaint(spec) == "taken");
    CHECK(soot::calc::find_law_form(form.name) == &form);
  }
  CHECK(soot::calc::find_law_form("own") == nullptr);
}
