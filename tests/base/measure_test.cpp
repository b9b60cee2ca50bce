// Written numbers with units: what is taken, and the sentence for what is not.
#include "core/base/measure.hpp"

#include "tests/near.hpp"

#include <doctest/doctest.h>

#include <string>

namespace {

using soot::Dimension;

std::string complaint(const std::string& text) {
  const auto measure = soot::read_measure(text);
  return measure ? "taken" : measure.error().front().text;
}

std::string complaint(const std::string& text, Dimension dimension) {
  const auto measure = soot::read_measure(text, dimension);
  return measure ? "taken" : measure.error().front().text;
}

}  // namespace

TEST_CASE("a measure keeps what was typed beside what is counted") {
  const auto measure = soot::read_measure(" 1.741in ").value();
  CHECK(measure.as_written == "1.741in");
  CHECK(measure.value == 1.741);
  CHECK(measure.unit.name == "in");
  CHECK(measure.model() == soot::test::near(44.2214));
  CHECK(measure.bound == soot::Bound::none);
}

TEST_CASE("numbers in the ways that people write them") {
  CHECK(soot::read_measure("29.41 mm")->value == 29.41);
  CHECK(soot::read_measure("-3deg")->value == -3);
  CHECK(soot::read_measure("+3 deg")->value == 3);
  CHECK(soot::read_measure(".5 mm")->value == 0.5);
  CHECK(soot::read_measure("2e1 bar")->value == 20);
  CHECK(soot::read_measure("48")->unit.dimension == Dimension::number);
  CHECK(soot::read_measure("3 mm Hg")->unit.name == "mm Hg");
}

TEST_CASE("bounds") {
  const auto above = soot::read_measure(">20 bar").value();
  CHECK(above.bound == soot::Bound::above);
  CHECK(above.value == 20);
  CHECK(soot::read_measure("< 5bar")->bound == soot::Bound::below);
}

TEST_CASE("what is no number gets a sentence") {
  CHECK(complaint("") == "nothing is written (expected a number with its unit)");
  CHECK(complaint("   ") == "nothing is written (expected a number with its unit)");
  CHECK(complaint("deep") == "'deep' is not a number (expected one with its unit, as 29.41 mm)");
  CHECK(complaint("nan mm") ==
        "'nan mm' is not a number (expected one with its unit, as 29.41 mm)");
  CHECK(complaint("-nan mm") ==
        "'-nan mm' is not a number (expected one with its unit, as 29.41 mm)");
  CHECK(complaint("inf bar") ==
        "'inf bar' is not a number (expected one with its unit, as 29.41 mm)");
  CHECK(complaint("-inf bar") ==
        "'-inf bar' is not a number (expected one with its unit, as 29.41 mm)");
  CHECK(complaint(">") == "'>' is not a number (expected one with its unit, as 29.41 mm)");
  CHECK(complaint("- mm") == "'- mm' is not a number (expected one with its unit, as 29.41 mm)");
  CHECK(complaint("1e400 mm") == "'1e400 mm' is too large or too small a number");
  CHECK(complaint("1e-400 mm") == "'1e-400 mm' is too large or too small a number");
  CHECK(complaint("29,41 mm") == "'29,41 mm' has a decimal comma (expected a point, as 29.41 mm)");
}

TEST_CASE("a unit that is unknown gets the nearest") {
  CHECK(complaint("3 bra") == "'bra' is no unit known here, did you mean bar?");
  CHECK(complaint("3 furlongs") == "'furlongs' is no unit known here");
  CHECK(complaint("1.2.3 mm") == "'.3 mm' is no unit known here");
}

TEST_CASE("a unit that is missing or of another kind is refused") {
  CHECK(complaint("29.41", Dimension::length) ==
        "'29.41' has no unit (expected a length in mm, in, thou, um, cm, m, ft)");
  CHECK(complaint("20 bar", Dimension::angle) ==
        "'20 bar' is a pressure (expected an angle in deg)");
  CHECK(complaint("3 mm", Dimension::number) == "'3 mm' is a length (expected a plain number)");
  CHECK(complaint("29.41 in", Dimension::length) == "taken");
}

TEST_CASE("problems of a measure are the persons") {
  CHECK(soot::read_measure("x").error().front().kind == soot::Kind::use);
}

TEST_CASE("printing in a unit") {
  CHECK(soot::print_in(44.2214, *soot::find_unit("in"), 3) == "1.741 in");
  CHECK(soot::print_in(100, *soot::find_unit("F"), 0) == "212 F");
  CHECK(soot::print_in(3, soot::model_unit(Dimension::number), 0) == "3");
}
