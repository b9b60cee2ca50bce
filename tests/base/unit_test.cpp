// Units against published conversion factors.
#include "core/base/unit.hpp"

#include "core/base/measure.hpp"
#include "tests/near.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <set>
#include <string>

namespace {

double model(const std::string& text) {
  return soot::read_measure(text).value().model();
}

}  // namespace

TEST_CASE("units agree with the published factors") {
  // NIST SP 811 (2008), appendix B.8 and B.9.
  CHECK(model("1 in") == soot::test::near(25.4, 1e-12));
  CHECK(model("1 ft") == soot::test::near(304.8, 1e-12));
  CHECK(model("1 thou") == soot::test::near(0.0254, 1e-12));
  CHECK(model("1 psi") == soot::test::near(0.06894757, 1e-7));
  CHECK(model("1 kgf/cm2") == soot::test::near(0.980665, 1e-12));
  CHECK(model("1 in Hg") == soot::test::near(0.03386389, 1e-6));
  CHECK(model("1 mm Hg") == soot::test::near(0.001333224, 1e-6));
  CHECK(model("1 in H2O") == soot::test::near(0.002490889, 1e-6));
  CHECK(model("1 mm H2O") == soot::test::near(0.0000980665, 1e-9));
  CHECK(model("1 lbf") == soot::test::near(4.448222, 1e-6));
  CHECK(model("1 kgf") == soot::test::near(9.80665, 1e-12));
  CHECK(model("1 hp") == soot::test::near(0.7456999, 1e-6));
  CHECK(model("1 MPa") == soot::test::near(10, 1e-12));
  CHECK(model("1 kPa") == soot::test::near(0.01, 1e-12));
}

TEST_CASE("temperatures have an offset") {
  // Freezing and boiling water, 32 and 212 F, and 273.15 K: NIST SP 811 (2008), B.8.
  CHECK(std::fabs(model("32 F")) < 1e-9);
  CHECK(model("212 F") == soot::test::near(100, 1e-9));
  CHECK(std::fabs(model("273.15 K")) < 1e-9);
  // A difference has none: 9 F are 5 C.
  CHECK(soot::model_difference(soot::read_measure("9 F").value()) == soot::test::near(5));
}

TEST_CASE("supply and opening pressure of the trade") {
  // Common practice, no published source.
  CHECK(model("15 psi") == soot::test::near(1.03, 0.005));
  CHECK(model("1500 psi") == soot::test::near(103, 0.005));
}

TEST_CASE("pressures printed in workshop manuals") {
  const soot::Unit psi = *soot::find_unit("psi");
  const auto in_psi = [&](const std::string& text) { return model(text) / psi.factor; };
  // Oracle N4: 125 kgf/cm2 is 1778 psi (a service manual prints 1978, a misprint).
  CHECK(in_psi("125 kgf/cm2") == soot::test::near(1778, 1.0 / 1778));
  // Oracle N2: 7 to 10 kgf/cm2 is 99.5 to 142.2 psi (service manual, injection pressure).
  CHECK(in_psi("7 kgf/cm2") == soot::test::near(99.5, 0.001));
  CHECK(in_psi("10 kgf/cm2") == soot::test::near(142.2, 0.001));
  // Oracle N3: 1.87 MPa is 19 kgf/cm2 (service manual p. 3-4).
  CHECK(model("1.87 MPa") == soot::test::near(model("19 kgf/cm2"), 0.02 / 1.87));
  // TM 9-3895-346: 1 in Hg is 0.491 psi.
  CHECK(in_psi("1 in Hg") == soot::test::near(0.491, 0.001));
}

TEST_CASE("a unit is found however it is spaced or capitalised") {
  CHECK(soot::find_unit("mmHg")->name == "mm Hg");
  CHECK(soot::find_unit("mm Hg")->name == "mm Hg");
  CHECK(soot::find_unit("PSI")->name == "psi");
  CHECK(soot::find_unit("Bar")->name == "bar");
  CHECK(soot::find_unit("\xC2\xB0"
                        "C")
            ->name == "C");
  CHECK(soot::find_unit("inch")->name == "in");
  CHECK(soot::find_unit("kg/cm2")->name == "kgf/cm2");
  CHECK_FALSE(soot::find_unit("furlong"));
  CHECK_FALSE(soot::find_unit(""));
}

TEST_CASE("the model unit of every dimension counts one for one") {
  for (int d = 0; d <= static_cast<int>(soot::Dimension::number); ++d) {
    const auto dimension = static_cast<soot::Dimension>(d);
    const soot::Unit unit = soot::model_unit(dimension);
    CHECK(unit.dimension == dimension);
    CHECK(unit.factor == 1);
    CHECK(unit.offset == 0);
    CHECK_FALSE(soot::name_of(dimension).empty());
    // Lists for messages begin with it.
    if (dimension != soot::Dimension::number)
      CHECK(soot::units_of(dimension).rfind(unit.name, 0) == 0);
  }
  CHECK(soot::units_of(soot::Dimension::number) == "a plain number");
}

TEST_CASE("every unit word is found again and stands once") {
  std::set<std::string> seen;
  for (const std::string& word : soot::unit_words()) {
    CHECK(soot::find_unit(word));
    CHECK(seen.insert(word).second);
  }
}
