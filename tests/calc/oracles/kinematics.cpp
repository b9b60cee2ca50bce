#include "core/calc/crank.hpp"
#include "core/calc/train.hpp"
#include "tests/calc/engines.hpp"
#include "tests/calc/oracles/rows.hpp"

namespace soot::test {
namespace {

/// Stroke and rod of the published pair (from memory; they reproduce it to 0.0001 in).
Family short_engine() {
  Family family;
  put(family, "stroke", "6.000 in");
  put(family, "rod-length", "12.000 in");
  return family;
}

double angle_of_drop() {
  return result(work("drop", short_engine(), {{"below", given("5.161 mm")}}).value(),
                "angle from top");
}

// Long marks 5 deg apart measure 2.0 cm, so that a degree is 4 mm of that rim.
double angle_of_arc() {
  const Family none;
  return result(work("arc", none, {{"arc", given("4.0 cm")}, {"scale", given("4 mm/deg")}}).value(),
                "angle");
}

double rim_radius_in() {
  // The rim on which a degree is 0.1 in, found by halving.
  double low = 1, high = 100;
  for (int i = 0; i < 60; ++i) {
    const double middle = (low + high) / 2;
    (calc::rim_arc_mm(2 * middle * in_mm, 1) < 0.1 * in_mm ? low : high) = middle;
  }
  return low;
}

calc::Sum two_stops() {
  const Family none;
  return work("two-stops", none, {{"before", given("21 deg")}, {"after", given("15 deg")}}).value();
}

double tooth_of_cam_gear(int strokes) {
  Family family;
  family.strokes = strokes;
  put(family, "pump-teeth", "48");
  return calc::tooth_deg(family).value();
}

/// Cam turns per crank turn of equal gears, from the angle between firing strokes of one cylinder.
double cam_per_crank() {
  return 360 / calc::firing_interval_deg(2, 1);
}

}  // namespace

std::vector<OracleRow> kinematics_rows() {
  const calc::CrankGear gear{6 * in_mm, 12 * in_mm};
  const char* const pair = "static injection-timing procedure, 5.16 mm [0.2032 in] or 19 deg";
  const char* const arithmetic = "720/N and 360/N, arithmetic, no publication found";
  return {
      {"K1", pair, calc::piston_drop_mm(gear, 19) / in_mm, 0.2032, 0.0003},
      {"K2", pair, angle_of_drop(), 19, 0.05},
      {"K3", "service manual p. 7-23, injection timing", angle_of_arc(), 10, 0.1},
      {"K4", "service manual p. 51, step 7", rim_radius_in(), 5.730, 0.005},
      {"K5", "finding top centre, worked example, steps 11 and 12",
       result(two_stops(), "each side"), 18, 0.01},
      {"K5", "the same: wheel out by", -result(two_stops(), "readings against the mark look late"),
       3, 0.01},
      {"K6", "TM 5-3810-303-24, engine timing", cam_per_crank(), 1, 0},
      {"K7", arithmetic, tooth_of_cam_gear(4), 15, 1e-9},
      {"K8", arithmetic, tooth_of_cam_gear(2), 7.5, 1e-9},
  };
}

}  // namespace soot::test
