// Family files with mistakes, to the letter; and the families that ship, which have none.
#include "core/knowledge/family_reader.hpp"

#include "core/knowledge/loader.hpp"
#include "tests/places.hpp"

#include <doctest/doctest.h>

#include <fstream>
#include <sstream>
#include <stdexcept>
#include <string>

namespace {

const std::string good_family = R"([family]
id = "grebe-3"
name = "Grebe three"
version = "1.0.0"
author = "test"
cylinders = 3
firing-order = [1, 3, 2]
rotation = "clockwise seen from the fan"
numbering = "No. 1 is next to the fan"
features = ["four-stroke"]

[lift]
law = "constant-rate"
rate = "0.12 mm/deg"

[figures]
bore = "140 mm"
lifter-depth = { value = "29.20 mm", tolerance = "0.05 mm" }
supply-pressure = { low = "0.5 bar", high = "0.9 bar", least = "0.35 bar" }
crank-teeth = "30"
winch-pull = "2000 N"
)";

soot::Result<soot::ReadFamily> read(const std::string& text) {
  return soot::read_family("grebe-3.toml", text, soot::Scale{});
}

std::string told(const std::string& from, const std::string& to) {
  std::string text = good_family;
  const std::size_t at = text.find(from);
  REQUIRE_MESSAGE(at != std::string::npos, from);
  const auto family = read(text.replace(at, from.size(), to));
  if (family) return "";
  std::string out;
  for (soot::Problem problem : family.error()) {
    CHECK(problem.kind == soot::Kind::data);
    problem.excerpt.clear();
    problem.place.file = "";
    out += fmt::format("{}:{}: {}\n", problem.place.line, problem.place.column, problem.text);
  }
  return out;
}

std::string file(const std::string& path) {
  std::ifstream in(source_dir() + "/" + path, std::ios::binary);
  if (!in) throw std::runtime_error(path);
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

}  // namespace

TEST_CASE("the family that is spoilt below is good") {
  const auto read_good = read(good_family);
  REQUIRE_MESSAGE(read_good, (read_good ? "" : to_string(read_good.error())));
  const soot::Family& family = read_good->family;
  CHECK(family.cylinders == 3);
  CHECK(family.strokes == 4);
  CHECK(family.firing_order == std::vector<int>{1, 3, 2});
  CHECK(family.nominal("bore") == 140);
  CHECK(family.nominal("supply-pressure") == doctest::Approx(0.7));
  CHECK(family.figure("lifter-depth")->tolerance == doctest::Approx(0.05));
  CHECK(family.law.coefficients.at("rate").value == doctest::Approx(0.12));
  CHECK(read_good->own.causes.empty());
}

TEST_CASE("a firing order that is none") {
  const auto order = [](const std::string& list) { return told("[1, 3, 2]", list); };
  CHECK(order("[1, 3, 3]") ==
        "7:16: firing order 1-3-3 does not name each of the 3 cylinders once\n");
  CHECK(order("[1, 2]") == "7:16: firing order 1-2 does not name each of the 3 cylinders once\n");
  CHECK(order("[0, 1, 2]") ==
        "7:16: firing order 0-1-2 does not name each of the 3 cylinders once\n");
  CHECK(order("[1, 3, 4294967298]") ==
        "7:16: firing order 1-3-4294967298 does not name each of the 3 cylinders once\n");
  CHECK(order("[1, 3, \"2\"]") ==
        "7:23: an entry of firing-order is a text (expected a whole number)\n"
        "7:16: firing order 1-3 does not name each of the 3 cylinders once\n");
}

TEST_CASE("cylinders and strokes beyond what can be") {
  CHECK(told("cylinders = 3", "cylinders = 0") == "6:13: cylinders is 0 (expected 1 to 16)\n");
  CHECK(told("cylinders = 3", "cylinders = 40") == "6:13: cylinders is 40 (expected 1 to 16)\n");
  CHECK(told("cylinders = 3", "cylinders = 4294967299") ==
        "6:13: cylinders is 4294967299 (expected 1 to 16)\n");
  CHECK(told("cylinders = 3\n", "") == "1:1: cylinders is missing (expected 1 to 16)\n");
  CHECK(told("cylinders = 3", "cylinders = 3\nstrokes = 3") ==
        "7:11: strokes is 3 (expected 2 or 4)\n");
}

TEST_CASE("a figure without its unit or with one of another kind") {
  CHECK(told("\"140 mm\"", "\"140\"") ==
        "17:8: bore has no unit (expected a length in mm, in, thou, um, cm, m, ft)\n");
  CHECK(told("\"140 mm\"", "140") ==
        "17:8: bore has no unit (expected a length in mm, in, thou, um, cm, m, ft)\n");
  CHECK(told("\"140 mm\"", "\"140 bar\"") ==
        "17:8: bore is a pressure (expected a length in mm, in, thou, um, cm, m, ft)\n");
  CHECK(told("\"140 mm\"", "\"14O mm\"") == "17:8: bore: 'O mm' is no unit known here\n");
  CHECK(told("\"140 mm\"", "\"14,0 mm\"") ==
        "17:8: bore: '14,0 mm' has a decimal comma (expected a point, as 29.41 mm)\n");
  CHECK(told("\"140 mm\"", "\">140 mm\"") ==
        "17:8: bore: '>140 mm' is a bound (expected a plain measure)\n");
  CHECK(told("\"30\"", "\"30 mm\"") ==
        "20:15: crank-teeth is a length (expected a plain number)\n");
  CHECK(told("\"0.05 mm\"", "\"0.05\"") ==
        "18:50: lifter-depth: tolerance has no unit (expected a length in mm, in, thou, um, cm, m, "
        "ft)\n");
  CHECK(told("\"2000 N\"", "{ value = \"2000 N\", most = \"3 bar\" }") ==
        "21:41: winch-pull: most is a pressure (expected a force like the rest of it)\n");
}

TEST_CASE("figures that no engine has") {
  CHECK(told("\"140 mm\"", "\"-140 mm\"") == "17:8: bore is -140 mm (expected more than 0)\n");
  CHECK(told("\"140 mm\"", "\"0 in\"") == "17:8: bore is 0 in (expected more than 0)\n");
  CHECK(told("\"140 mm\"", "{ value = \"140 mm\", least = \"-1 mm\" }") ==
        "17:8: bore is -1 mm (expected more than 0)\n");
  CHECK(told("bore = \"140 mm\"", "jam-rise = \"-0.04 mm\"") ==
        "17:12: jam-rise is -0.04 mm (expected 0 or more)\n");
  CHECK(told("bore = \"140 mm\"", "jam-rise = \"0 mm\"") == "");
  CHECK(told("bore = \"140 mm\"", "coolant-temperature = \"-10 C\"") == "");
  CHECK(told("bore = \"140 mm\"", "static-timing = \"55 deg\"") ==
        "17:17: static-timing is 55 deg (expected 0 to 40 deg before top)\n");
  CHECK(told("bore = \"140 mm\"", "static-timing = \"-5 deg\"") ==
        "17:17: static-timing is -5 deg (expected more than 0)\n");
  CHECK(told("\"30\"", "\"30.5\"") == "20:15: crank-teeth is 30.5 (expected a whole number)\n");
}

TEST_CASE("inches and millimetres in one file are fine") {
  CHECK(told("\"140 mm\"", "\"5.512 in\"") == "");
  CHECK(told("\"0.05 mm\"", "\"2 thou\"") == "");
}

TEST_CASE("a rotation that is half a statement") {
  CHECK(told("\"clockwise seen from the fan\"", "\"left-handed\"") ==
        "8:12: rotation 'left-handed' does not say sense and end (expected clockwise or "
        "anticlockwise seen from ..., as \"clockwise seen from the fan\")\n");
  CHECK(told("\"clockwise seen from the fan\"", "\"reversing; ahead clockwise seen from aft\"") ==
        "");
}

TEST_CASE("the last place of a figure is kept") {
  const auto step = [](const std::string& to) {
    std::string text = good_family;
    const std::string from = "\"140 mm\"";
    const auto family = read(text.replace(text.find(from), from.size(), to)).value().family;
    return family.figures.at("bore").step;
  };
  CHECK(step("\"140 mm\"") == doctest::Approx(1));
  CHECK(step("\"140.0 mm\"") == doctest::Approx(0.1));
  CHECK(step("\"5.512 in\"") == doctest::Approx(0.0254));
  CHECK(step("{ value = \"140 mm\", most = \"140.25 mm\" }") == doctest::Approx(0.01));
}

TEST_CASE("limits on the wrong side") {
  CHECK(told("least = \"0.35 bar\"", "least = \"0.6 bar\"") ==
        "19:64: supply-pressure: least is above low\n");
  CHECK(told("low = \"0.5 bar\"", "low = \"1.5 bar\"") ==
        "19:27: supply-pressure: low is above high\n");
  CHECK(told("tolerance = \"0.05 mm\"", "most = \"29.1 mm\"") ==
        "18:26: lifter-depth: value is above most\n");
  CHECK(told("tolerance = \"0.05 mm\"", "least = \"29.3 mm\"") ==
        "18:46: lifter-depth: least is above value\n");
  CHECK(told("\"0.05 mm\"", "\"-0.05 mm\"") ==
        "18:50: lifter-depth: the tolerance is not above 0\n");
  CHECK(told("\"0.05 mm\"", "\"0 mm\"") == "18:50: lifter-depth: the tolerance is not above 0\n");
  CHECK(told("value = \"29.20 mm\", tolerance", "tolerance") ==
        "18:16: lifter-depth has no figure (expected value, low and high, least or most)\n");
}

TEST_CASE("keys that are misspelt or there twice") {
  CHECK(told("bore =", "lifter-dept =") ==
        "17:15: lifter-dept is no figure known here, did you mean lifter-depth?\n");
  CHECK(told("bore = ", "crank-teeth = \"30\"\nbore = ") ==
        "21:15: not TOML: cannot redefine existing string 'crank-teeth' (in: key-value pair)\n");
  CHECK(told("rotation", "rotaton") ==
        "1:1: rotation is missing (expected a text)\n"
        "8:1: rotaton is no key known here, did you mean rotation?\n");
  CHECK(told("tolerance =", "tolerence =") ==
        "18:38: tolerence is no key known here, did you mean tolerance?\n");
  CHECK(told("[family]", "[famliy]") ==
        "1:1: [family] is missing\n"
        "1:2: famliy is no key known here, did you mean family?\n");
}

TEST_CASE("coefficients of the lift law have units") {
  CHECK(told("\"0.12 mm/deg\"", "0.12") ==
        "14:8: rate has no unit (expected a measure, as \"0.12 mm/deg\")\n");
  CHECK(told("\"0.12 mm/deg\"", "\"0.12\"") ==
        "14:8: rate has no unit (expected a measure, as \"0.12 mm/deg\")\n");
  CHECK(told("law = \"constant-rate\"\n", "") == "12:1: law is missing (expected a text)\n");
}

TEST_CASE("the families that ship are read clean") {
  const auto loaded = soot::load_knowledge(source_dir() + "/knowledge");
  REQUIRE(loaded);
  for (const std::string path :
       {"plugins/tabular/families/grebemouth-6.toml", "plugins/tabular/families/hagmoss-4.toml",
        "plugins/tabular/families/skarnfell-4.toml", "plugins/tabular/families/wickerlode-3.toml",
        "plugins/lodefoot/families/lodefoot-1.toml",
        "plugins/sallowness/families/sallowness-2.toml"}) {
    const auto family = soot::read_family(path, file(path), loaded->scale);
    CHECK_MESSAGE(family, (family ? "" : to_string(family.error())));
  }
}
