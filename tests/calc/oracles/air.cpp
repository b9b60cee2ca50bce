#include "core/calc/air.hpp"

#include "core/calc/compression.hpp"
#include "core/calc/ignition.hpp"
#include "tests/calc/engines.hpp"
#include "tests/calc/oracles/rows.hpp"

namespace soot::test {
namespace {

constexpr double ft_m = 0.3048;
constexpr double psi_bar = 0.0689475729;

double at_height_psi(const char* altitude) {
  const Family none;
  return result(work("compression", none,
                     {{"figure", given("120 psi")}, {"altitude", given(altitude)}})
                    .value(),
                "expected on the gauge") /
         psi_bar;
}

/// The cylinder that the sum calls suspect; 0 for none or several.
double suspect_of_four() {
  const Family none;
  const char* const readings[] = {"445 psi", "440 psi", "405 psi", "435 psi"};
  Inputs inputs{{"limit", given("25 psi")}};
  for (int c = 1; c <= 4; ++c)
    inputs.emplace_back("reading", given(readings[c - 1], c));
  const auto sum = work("spread", none, inputs).value();
  double found = 0;
  for (const std::string& line : sum.answer)
    if (line.find("low: suspect it") != std::string::npos)
      found = line.starts_with("cylinder ") ? line[9] - '0' : -1;
  return found;
}

double hardenberg(calc::HardenbergForm form) {
  return calc::hardenberg_deg({800, 40, 50, 5}, form);
}

}  // namespace

std::vector<OracleRow> air_rows() {
  const char* const ratio = "compression ratio, encyclopedia text";
  const char* const letter = "magazine reader letter, absolute-pressure method";
  const char* const isa = "ICAO Doc 7488, 5000 ft (from memory, check)";
  const char* const energy = "618840/(CN+25): public repositories quoting Heywood ch. 10";
  const char* const form = "formula of Hardenberg and Hase (from memory, computed)";
  const double height_m = 5000 * ft_m;
  const double seven = calc::end_pressure(1, 7.5, 1.3);
  return {
      {"C3", "TM 5-3895-359-14&P, table 2: cylinder 3 suspect", suspect_of_four(), 3, 0},
      {"C7", ratio, seven, 13.7, 0.05},
      {"C7", ratio, 14.7 * seven, 201.8, 0.5},
      {"C7", ratio, 14.7 * seven - 14.7, 187.1, 0.5},
      {"C8", letter, at_height_psi("5000 ft"), 100, 1},
      {"C9", letter, 100 * (at_height_psi("250 ft") / at_height_psi("0 ft") - 1), -1, 0.2},
      {"C10", isa, 100 * calc::air_pressure_bar(height_m), 84.307, 0.05},
      {"C10", isa, calc::air_temperature_k(height_m), 278.24, 0.1},
      {"C11", "ASTM D613 conditions (13 deg found, 900 rpm from memory)", calc::ms_of_deg(13, 900),
       2.407, 0.002},
      {"C13", form, hardenberg(calc::HardenbergForm::sum), 7.285, 0.01},
      {"C13", form, calc::ms_of_deg(hardenberg(calc::HardenbergForm::sum), 1000), 1.214, 0.01},
      {"C14", form, hardenberg(calc::HardenbergForm::product), 2.780, 0.01},
      {"C14", form, calc::ms_of_deg(hardenberg(calc::HardenbergForm::product), 1000), 0.463, 0.01},
      {"C15", energy, calc::activation_j_mol(50), 8251.2, 0.1},
      {"C15", energy, calc::activation_j_mol(45), 8840.6, 0.1},
      {"C15", energy, calc::activation_j_mol(40), 9520.6, 0.1},
      {"C16", "Wolfer (formula from memory, computed)", calc::wolfer_ms(30, 600), 18.1, 0.1},
  };
}

}  // namespace soot::test
