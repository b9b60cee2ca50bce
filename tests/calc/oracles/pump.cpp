#include "core/calc/leakage.hpp"
#include "tests/calc/engines.hpp"
#include "tests/calc/oracles/rows.hpp"

#include <cmath>
#include <set>

namespace soot::test {
namespace {

double button_in(const char* late) {
  const Family none;
  return result(work("timing-shim", none, {{"late", given(late)}, {"rate", given("0.003 in/deg")}})
                    .value(),
                "thickness") /
         in_mm;
}

double other_button_in(const char* old_closing, const char* old_button, const char* new_closing,
                       const char* name) {
  const Family none;
  return result(work("button", none,
                     {{"old-closing", given(old_closing)},
                      {"old-button", given(old_button)},
                      {"new-closing", given(new_closing)},
                      {"step", given("0.003 in")},
                      {"smallest", given("0.089 in")}})
                    .value(),
                name) /
         in_mm;
}

/// Sizes met when every thickness from the smallest to the largest is asked for.
double sizes_of_the_series() {
  std::set<long> sizes;
  for (int tenths = 890; tenths <= 1340; ++tenths) {
    const std::string wanted = fmt::format("{} in", 1 + tenths / 1e4);
    sizes.insert(std::lround(
        1e4 * other_button_in(wanted.c_str(), "0.0001 in", "1.0001 in", "nearest size")));
  }
  return static_cast<double>(sizes.size());
}

double shim_mm(const char* closing, const char* depth, const char* name) {
  const Family none;
  return result(
      work("shim", none,
           {{"closing", given(closing)}, {"depth", given(depth)}, {"step", given("0.1 mm")}})
          .value(),
      name);
}

/// The tangent cam of a small pump: sizes assumed (base 15 mm, roller 8, 2.2 of lift at closing).
double degrees_of_shim(double thickness_mm) {
  Family family;
  family.strokes = 4;
  put(family, "static-timing", "18 deg");
  put_law(family, "tangent-flank",
          {{"base-radius", "15 mm"},
           {"roller-radius", "8 mm"},
           {"closing", "18 deg"},
           {"closing-lift", "2.2 mm"},
           {"total", "7 mm"}});
  const auto law = law_of(family);
  calc::Given thickness = given("1 mm");
  thickness.value = thickness_mm;
  return result(work("timing-shim", family, {{"thickness", thickness}}, law.get()).value(), "late");
}

/// 1 where the sum orders the sign that the manual does.
double says_thinner_when_late() {
  const Family none;
  const auto late =
      work("timing-shim", none, {{"late", given("1 deg")}, {"rate", given("0.1 mm/deg")}}).value();
  const auto early =
      work("timing-shim", none, {{"late", given("-1 deg")}, {"rate", given("0.1 mm/deg")}}).value();
  const auto ends = [](const calc::Sum& sum, std::string_view word) {
    return sum.answer[1].starts_with("or shim under the pump: ") && sum.answer[1].ends_with(word);
  };
  return ends(late, "thinner") && ends(early, "thicker") ? 1 : 0;
}

calc::Sum ganesan_97() {
  const Family none;
  // Barrel 6 cc, pipe 2.5 mm by 60 cm, valve 2 cc.
  const double trapped_ml = 6 + M_PI * 0.25 * 0.25 / 4 * 60 + 2;
  calc::Given trapped = given("1 mL");
  trapped.value = trapped_ml;
  return work("displacement", none,
              {{"fuel", given("0.10 mL")},
               {"trapped", trapped},
               {"pressure", given("150 bar")},
               {"compressibility", given("75")},
               {"plunger-diameter", given("7 mm")}})
      .value();
}

double ganesan_96_ml() {
  const Family none;
  // 100 kW, 0.3 kg/kWh, 6 cylinders, 1500 rpm, 0.9 kg/L.
  calc::Given fuel = given("1 mL");
  fuel.value = 100 * 0.3 / (6 * 750 * 60) / 0.9 * 1000;
  return result(work("displacement", none,
                     {{"fuel", fuel},
                      {"trapped", given("9 mL")},
                      {"pressure", given("300 bar")},
                      {"compressibility", given("80")}})
                    .value(),
                "displacement");
}

/// New lapped plunger, 0.0001 in on the mean: share of the charge lost, as a plunger of 14 mm sees
/// it.
double new_plunger_loss() {
  Family family;
  put(family, "plunger-diameter", "14 mm");
  put(family, "nozzle-opening", "200 bar");
  return result(work("leak", family,
                     {{"clearance", given("0.0002 in")},
                      {"speed", given("1000 rpm")},
                      {"fuel", given("40 C")},
                      {"rate", given("0.2113 mm/deg")}})
                    .value(),
                "lost at speed");
}

}  // namespace

std::vector<OracleRow> pump_rows() {
  const char* const button =
      "service manual p. 51, examples 1 and 2 (P2: result line cut, computed)";
  const char* const training = "service training p. 14 and table 2";
  const char* const ex97 = "Ganesan, Internal Combustion Engines, ch. 9, ex. 9.7 (result computed)";
  return {
      {"P1", button, button_in("3 deg"), 0.009, 0.0001},
      {"P2", button, button_in("-4 deg"), -0.012, 0.0001},
      {"P3", "TM 5-6115-584-34, timing method 1",
       other_button_in("1.093 in", "0.119 in", "1.089 in", "button"), 0.123, 0.0005},
      {"P3", "the same: button M",
       other_button_in("1.093 in", "0.119 in", "1.089 in", "nearest size"), 0.122, 0.0005},
      {"P4", "TM 9-2330-356-14 p. 7-65",
       other_button_in("1.109 in", "0.107 in", "1.103 in", "nearest size"), 0.113, 0.0005},
      {"P5", "TM 9-2330-356-14 table 7-4", sizes_of_the_series(), 16, 0},
      {"P6", "service manual p. 95, method 1 (depth chosen here)",
       shim_mm("1.670 in", "1.650 in", "shim") / in_mm, 0.020, 0.0005},
      {"P7", training, shim_mm("111.725 mm", "109.53 mm", "shim"), 2.195, 0.0005},
      {"P8", training, shim_mm("121.725 mm", "119.53 mm", "nearest size"), 2.2, 0.0005},
      {"P9", training, shim_mm("2.1502 mm", "0.0001 mm", "nearest size"), 2.2, 1e-9},
      {"P9", training, shim_mm("2.2491 mm", "0.0001 mm", "nearest size"), 2.2, 1e-9},
      {"P10", "workshop manual, injection timing: 0.05 mm is 0.5 deg", -degrees_of_shim(-0.05), 0.5,
       0.1},
      {"P11", "workshop manual 1-S30: 0.05 mm added is 0.5 deg later", degrees_of_shim(0.05), 0.5,
       0.1},
      {"P12", "manual p. 22 (its sign contradicts P10, P11, P15)", degrees_of_shim(0.1), 1, 0.2},
      {"P13", "repair manual FU-70: 0.1 mm is 0.5 deg of pump", degrees_of_shim(0.1) / 2, 0.5, 0.1},
      {"P15", "service manual p. 79, step 16: late, a thinner shim", says_thinner_when_late(), 1,
       0},
      {"P16", ex97, result(ganesan_97(), "displacement"), 0.22231, 0.0005},
      {"P16", ex97, result(ganesan_97(), "effective stroke"), 5.777, 0.01},
      {"P17", "Ganesan, ch. 9, ex. 9.6 (result computed)", ganesan_96_ml(), 0.33874, 0.0005},
      {"L1", "Fox and McDonald, Introduction to Fluid Mechanics, ex. 8.1 (answer from memory)",
       calc::gap_leak_mm3_s({25, 0.005, 15, 0}, 190, 18), 57.6, 0.3},
      {"L2", "fluid lexicon, ring gap: against one side",
       calc::gap_leak_mm3_s({25, 0.005, 15, 1}, 190, 18) /
           calc::gap_leak_mm3_s({25, 0.005, 15, 0}, 190, 18),
       2.5, 1e-9},
      {"L4", "NACA Report 477: about 0.01 %, order of magnitude", std::log10(new_plunger_loss()),
       -2, 1},
  };
}

}  // namespace soot::test
