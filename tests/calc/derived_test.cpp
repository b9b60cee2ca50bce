// Figures that follow from others, worked out once more by hand or in another way; and those that
// contradict them.
#include "core/calc/derived.hpp"

#include "core/calc/contradictions.hpp"
#include "core/calc/crank.hpp"
#include "core/calc/flank.hpp"
#include "core/calc/packing.hpp"
#include "tests/calc/engines.hpp"
#include "tests/near.hpp"

#include <doctest/doctest.h>

namespace {

using soot::Family;
using soot::test::near;
using soot::test::put;

Family fuller() {
  Family family = soot::test::hagmoss();
  for (const auto& [key, text] :
       std::vector<std::pair<std::string, std::string>>{{"compression-ratio", "16.2"},
                                                        {"inlet-closes-after-bottom", "40 deg"},
                                                        {"rated-speed", "900 rpm"},
                                                        {"mean-effective-pressure", "4.9 bar"},
                                                        {"fuel-rate", "272 g/kWh"},
                                                        {"rack-no-delivery", "2.5 mm"},
                                                        {"rack-module", "1.0 mm"}})
    put(family, key, text);
  family.figures.erase("effective-stroke");
  family.figures.erase("pump-teeth");
  return family;
}

double value(std::string_view key, const Family& family, const soot::calc::LiftLaw* law) {
  return soot::calc::derive(key, family, law).value.value_or(-1);
}

std::string told(const Family& family, const soot::calc::LiftLaw* law) {
  std::string out;
  for (const soot::Problem& problem : soot::calc::contradictions(family, law))
    out += problem.text + "\n";
  return out;
}

/// As a file has it: with its last place, and where it stands.
void write(Family& family, const std::string& key, const std::string& text, double step,
           const std::string& source = "given") {
  put(family, key, text);
  family.figures[key].step = step * family.figures[key].unit.factor;
  family.figures[key].source = source;
}

}  // namespace

TEST_CASE("what a bare family implies is worked out") {
  const Family family = fuller();
  const auto law = soot::test::law_of(family);
  const Family full = soot::calc::completed(family, law.get());
  // Design values of an invented family, each worked out there to the places shown.
  const std::vector<std::pair<std::string, double>> by_hand{
      {"swept-volume", 2925},      {"firing-interval", 180},
      {"effective-ratio", 14.8},   {"rated-power", 43.0},
      {"piston-speed", 5.70},      {"rim-per-degree", 4.89},
      {"piston-at-closing", 4.00}, {"fuel-per-injection", 0.128},
      {"effective-stroke", 1.81},  {"delivery-end-lift", 4.61},
      {"delivery-angle", 15.1},    {"stroke-per-rack", 0.382},
      {"rack-full", 7.2},          {"plunger-length-late", 1.25},
      {"crank-gear-radius", 60},   {"tooth-angle", 12},
      {"pump-teeth", 60},          {"lifter-per-flat", 0.167},
      {"timing-tolerance", 0.417}, {"degrees-per-tenth", 0.83},
      {"rack-pitch", 3.14}};
  for (const auto& [key, expected] : by_hand) {
    CAPTURE(key);
    REQUIRE(full.figure(key));
    CHECK(full.figure(key)->source == "derived");
    CHECK(full.nominal(key).value() == near(expected, 0.006));
  }
  CHECK(full.figures.at("train-lash").most.value() == near(0.86, 0.005));
  CHECK(full.figures.at("train-lash-depth").most.value() == near(0.103, 0.005));
  CHECK(full.figures.at("bore").source == "given");
}

TEST_CASE("a two-stroke halves the interval and gives its gears one ratio") {
  Family family = fuller();
  family.strokes = 2;
  CHECK(value("firing-interval", family, nullptr) == 90);
  CHECK(value("pump-teeth", family, nullptr) == 30);
  CHECK(value("rated-power", soot::calc::completed(family, nullptr), nullptr) ==
        near(2 * 43.0, 0.006));
}

TEST_CASE("the lift law wins over the one rate") {
  Family family = soot::test::tangent_engine();
  const auto law = soot::test::law_of(family);
  put(family, "lifter-depth-base", "40 mm");
  put(family, "lift-rate", "0.2 mm/deg");
  const double lift_at_top = law->lift_mm(0);
  put(family, "pre-stroke", "5 mm");
  CHECK(value("lifter-depth", family, law.get()) == near(40 - lift_at_top));
  // Without the law the rate is held from closing to the top.
  CHECK(value("lifter-depth", family, nullptr) == near(40 - 5 - 15 * 0.2));
  CHECK(lift_at_top > 5 + 15 * 0.2);
}

TEST_CASE("figures of one engine that agree are passed over") {
  Family family = fuller();
  const auto law = soot::test::law_of(family);
  CHECK(told(family, law.get()) == "");
  write(family, "swept-volume", "2.925 L", 0.001, "derived");
  write(family, "rated-power", "43 kW", 1, "derived");
  CHECK(told(family, law.get()) == "");
  // Off by less than half of the last place written, and by more.
  write(family, "swept-volume", "2.92 L", 0.01);
  CHECK(told(family, law.get()) == "");
  write(family, "swept-volume", "2.94 L", 0.01);
  CHECK(told(family, law.get()) == "swept-volume is 2.94 L (expected 2.92 L, from bore, stroke)\n");
}

TEST_CASE("figures that contradict the geometry are named with what was expected") {
  const auto law = soot::test::law_of(fuller());
  const auto with = [&](const std::string& key, const std::string& text, double step) {
    Family family = fuller();
    write(family, key, text, step);
    return told(family, law.get());
  };
  CHECK(with("lifter-depth", "29.30 mm", 0.01) ==
        "lifter-depth is 29.30 mm (expected 29.20 mm, from foot at closing, static timing, "
        "lift)\n");
  CHECK(with("lifter-depth-base", "33.70 mm", 0.01) ==
        "lifter-depth-base is 33.70 mm (expected 33.80 mm, from foot at closing, lift before "
        "closing)\n");
  CHECK(with("pump-teeth", "61", 1) ==
        "pump-teeth is 61 (expected 60, from teeth of the crank's gear, strokes)\n");
  CHECK(with("crank-gear-radius", "62 mm", 1) ==
        "crank-gear-radius is 62 mm (expected 60 mm, from module and teeth of the crank's gear)\n");
  CHECK(with("rim-per-degree", "4.98 mm/deg", 0.01) ==
        "rim-per-degree is 4.98 mm/deg (expected 4.89 mm/deg, from flywheel diameter)\n");
  CHECK(with("plunger-lift", "11 mm", 1) ==
        "plunger-lift is 11 mm (expected 10 mm, from lift law)\n");
  CHECK(with("lift-rate", "0.14 mm/deg", 0.01) ==
        "lift-rate is 0.14 mm/deg (expected 0.12 mm/deg, from static timing, lift law)\n");
  Family family = fuller();
  write(family, "effective-stroke", "1.81 mm", 0.01, "derived");
  write(family, "fuel-per-injection", "128 mm3", 1);
  write(family, "rack-full", "8.2 mm", 0.1);
  CHECK(told(family, law.get()) ==
        "rack-full is 8.2 mm (expected 7.2 mm, from rack at no delivery, effective stroke, "
        "helix)\n");
}

TEST_CASE("what is marked derived must follow from something") {
  Family family = fuller();
  write(family, "nozzle-hole", "0.70 mm", 0.01, "derived");
  write(family, "fuel-at-rating", "13.8 L/h", 0.1, "derived");
  family.figures.erase("fuel-rate");
  CHECK(told(family, nullptr) ==
        "fuel-at-rating is marked derived, and what it follows from is missing (expected rated "
        "power, fuel rate)\n"
        "nozzle-hole is marked derived, and no rule derives it (expected given)\n");
}

TEST_CASE("a depth that would put the plunger through the head") {
  Family family = fuller();
  const auto law = soot::test::law_of(family);
  CHECK_FALSE(soot::calc::plunger_meets_head(family, law.get()));
  write(family, "lifter-depth", "28.70 mm", 0.01);
  CHECK_FALSE(soot::calc::plunger_meets_head(family, law.get()));
  write(family, "lifter-depth", "28.50 mm", 0.01);
  CHECK(soot::calc::plunger_meets_head(family, law.get()).value().text ==
        "lifter-depth 28.50 mm would put the plunger through the head: 0.70 mm higher than the "
        "other figures make it, with 0.60 mm of room (expected 29.20 mm; set nothing by it)");
  family.figures.erase("head-clearance");
  CHECK_FALSE(soot::calc::plunger_meets_head(family, law.get()));
}

TEST_CASE("button and shim go there and back with their signs") {
  // Thicker shim under the pump: later, 0.05 mm for 0.5 deg at 0.1 mm/deg (workshop manual 1-S30).
  const auto straight = soot::calc::Flank::straight(0.1);
  CHECK(soot::calc::shim_change_mm(straight, -0.5) == near(0.05));
  CHECK(soot::calc::button_change_mm(straight, 0.5) == near(0.05));
  const Family family = soot::test::tangent_engine();
  const auto law = soot::test::law_of(family);
  const auto curved = soot::calc::Flank::of(family, law.get()).value();
  for (double late_deg = -8; late_deg <= 8; late_deg += 0.5) {
    const double button_mm = soot::calc::button_change_mm(curved, late_deg);
    CHECK(std::fabs(*soot::calc::late_of_button_deg(curved, button_mm) - late_deg) < 1e-9);
    const double shim_mm = soot::calc::shim_change_mm(curved, late_deg);
    CHECK(std::fabs(*soot::calc::late_of_shim_deg(curved, shim_mm) - late_deg) < 1e-9);
    CHECK(button_mm == -shim_mm);
  }
}

TEST_CASE("figures in an order that no engine turns round") {
  Family family;
  write(family, "plunger-lift", "10 mm", 1);
  write(family, "pre-stroke", "2.0 mm", 0.1);
  write(family, "rated-speed", "750 rpm", 1);
  write(family, "idle-speed", "350 rpm", 1);
  CHECK(told(family, nullptr).empty());
  write(family, "pre-stroke", "2.0 in", 0.1);
  CHECK(told(family, nullptr) ==
        "pre-stroke is 2.0 in (expected at most plunger-lift, which is 10 mm)\n");
  write(family, "pre-stroke", "2.0 mm", 0.1);
  write(family, "idle-speed", "1350 rpm", 1);
  CHECK(told(family, nullptr) ==
        "idle-speed is 1350 rpm (expected at most rated-speed, which is 750 rpm)\n");
  write(family, "overspeed-limit", "700 rpm", 1);
  soot::Figure& trip = family.figures["overspeed-limit"];
  std::swap(trip.most, trip.value);
  write(family, "idle-speed", "350 rpm", 1);
  write(family, "no-load-speed", "800 rpm", 1);
  CHECK(told(family, nullptr) ==
        "no-load-speed is 800 rpm (expected at most overspeed-limit, which is 700 rpm)\n");
}
