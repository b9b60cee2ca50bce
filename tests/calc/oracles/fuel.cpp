#include "core/calc/fuel.hpp"

#include "tests/calc/engines.hpp"
#include "tests/calc/oracles/rows.hpp"

namespace soot::test {
namespace {

constexpr double fahrenheit(double f) {
  return (f - 32) / 1.8;
}

double in_unit(const char* name, const char* pressure, const char* unit) {
  const Family none;
  const auto sum = work("units", none, {{name, given(pressure)}}).value();
  for (const calc::Amount& amount : sum.results)
    if (amount.name == unit) return (amount.value - amount.unit.offset) / amount.unit.factor;
  return 0;
}

/// Opening pressure that 0.1 mm of shim makes, in kgf/cm2, between softest and stiffest spring: how
/// far the published one lies outside the estimate.
double outside_range(const char* per_tenth) {
  const Family none;
  const auto range =
      work("nozzle-shim", none, {{"found", given("100 bar")}, {"wanted", given("110 bar")}})
          .value();
  const auto own = work("nozzle-shim", none,
                        {{"found", given("100 bar")},
                         {"wanted", given("110 bar")},
                         {"per-tenth", given(per_tenth)}})
                       .value();
  const double shim = result(own, "shim");
  return std::max({0.0, result(range, "shim, stiffest spring") - shim,
                   shim - result(range, "shim, softest spring")});
}

calc::Given volume(double ml) {
  calc::Given out = given("1 mL");
  out.value = ml;
  return out;
}

double ganesan_93_mm2() {
  const Family none;
  // 180 kW, 0.2 kg/kWh, 4 cylinders, 1500 rpm, 875 kg/m3; the means of 200 to 500 and 30 to 50 bar.
  return result(work("holes", none,
                     {{"fuel", volume(180 * 0.2 / (4 * 750 * 60) / 0.875 * 1000)},
                      {"over", given("15 deg")},
                      {"speed", given("1500 rpm")},
                      {"pressure", given("350 bar")},
                      {"back", given("40 bar")},
                      {"density", given("0.875 kg/L")},
                      {"coefficient", given("0.7")}})
                    .value(),
                "area, mm2");
}

double ganesan_92_mm() {
  const Family none;
  const double density = 141.5 / (131.5 + 30);  // 30 degrees API
  calc::Given heavy = given("1 kg/L");
  heavy.value = density;
  return result(work("holes", none,
                     {{"fuel", volume(25 * 0.3 / (1250 * 60) / density * 1000)},
                      {"over", given("25 deg")},
                      {"speed", given("2500 rpm")},
                      {"pressure", given("150 bar")},
                      {"back", given("40 bar")},
                      {"density", heavy},
                      {"coefficient", given("0.875")}})
                    .value(),
                "diameter of one");
}

}  // namespace

std::vector<OracleRow> fuel_rows() {
  const char* const d975 =
      "ASTM D975 as quoted in Md. regulation 03.03.05.02: middle and half width";
  return {
      {"L7", d975, calc::fuel_viscosity_mm2_s(fahrenheit(100)), (2.0 + 4.3) / 2, (4.3 - 2.0) / 2},
      {"L8", "student report, Penn State, 2015 (another fuel: 4.09 +/- 0.7)",
       calc::fuel_viscosity_mm2_s(fahrenheit(76)), 4.09, 0.7},
      {"N1", "manual p. 25: about 10 kgf/cm2, inside the estimate", outside_range("10 kgf/cm2"), 0,
       0},
      {"N2", "service manual: 7 to 10 kgf/cm2 is 99.5 to 142.2 psi",
       in_unit("pressure", "7 kgf/cm2", "psi"), 99.5, 0.1},
      {"N2", "the same", in_unit("pressure", "10 kgf/cm2", "psi"), 142.2, 0.1},
      {"N3", "service manual p. 3-4: 19 kgf/cm2 is 1.87 MPa",
       in_unit("pressure", "19 kgf/cm2", "MPa"), 1.87, 0.02},
      {"N4", "service manual (prints 1978 psi for 125 kgf/cm2, a misprint)",
       in_unit("pressure", "125 kgf/cm2", "psi"), 1778, 1},
      {"N7", "Ganesan, ch. 9, ex. 9.3 (result computed)", ganesan_93_mm2(), 0.7360, 0.001},
      {"N8", "Ganesan, ch. 9, ex. 9.2 (result computed)", ganesan_92_mm(), 0.793, 0.001},
  };
}

}  // namespace soot::test
