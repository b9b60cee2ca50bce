// What each of the sums refuses, with its words.
#include "tests/calc/engines.hpp"

#include <doctest/doctest.h>

namespace {

using soot::Family;
using soot::test::given;
using soot::test::Inputs;
using soot::test::work;

std::string refusal_of(std::string_view id, const Inputs& inputs) {
  const auto sum = work(id, Family{}, inputs);
  return sum ? "done" : soot::to_string(sum.error());
}

}  // namespace

TEST_CASE("compression refuses heights and speeds where no engine is turned") {
  const auto figure = std::pair{"figure", given("28 bar")};
  CHECK(refusal_of("compression", {figure, {"altitude", given("9000 m")}}) ==
        "an altitude of 9000 m (expected -430 to 5000)");
  CHECK(refusal_of("compression", {figure, {"speed", given("0 rpm")}}) ==
        "cranking at 0 rpm (expected 20 to 600)");
  CHECK(refusal_of("compression", {figure, {"barometer", given("0.1 bar")}}) ==
        "a barometer at 0.100 bar (expected 0.5 to 1.1, as read here, not brought to sea level)");
  CHECK(refusal_of("compression", {figure, {"ratio", given("1")}}) ==
        "a compression ratio of 1 (expected 6 to 30)");
}

TEST_CASE("ignition refuses what the delay was never measured at") {
  const auto ask = [](const char* bar, const char* air, const char* rpm, const char* height) {
    return refusal_of("ignition", {{"compression", given(bar)},
                                   {"air", given(air)},
                                   {"ratio", given("15")},
                                   {"start", given("15 deg")},
                                   {"speed", given(rpm)},
                                   {"altitude", given(height)}});
  };
  CHECK(ask("28 bar", "10 C", "190 rpm", "0 m") == "done");
  CHECK(ask("28 bar", "10 C", "0 rpm", "0 m") == "turning at 0 rpm (expected 20 to 2000)");
  CHECK(ask("28 bar", "10 C", "190 rpm", "9000 m") ==
        "an altitude of 9000 m (expected -430 to 5000)");
  CHECK(ask("4 bar", "10 C", "190 rpm", "0 m") ==
        "a compression of 5.0 bar absolute (expected 8 to 48, where the delay was measured)");
}

TEST_CASE("pump sums refuse the impossible") {
  CHECK(refusal_of("leak", {{"clearance", given("14 mm")},
                            {"diameter", given("14 mm")},
                            {"pressure", given("200 bar")},
                            {"rate", given("0.2 mm/deg")}}) ==
        "a clearance of 14 mm on the diameter (expected above 0 and at most 0.2: a few thousandths "
        "when new)");
  CHECK(refusal_of("line-delay", {{"length", given("700 mm")}, {"speed", given("0 rpm")}}) ==
        "turning at 0 rpm (expected above 0 and at most 5000)");
  CHECK(refusal_of("turned", {{"flats", given("99")},
                              {"pitch", given("1 mm")},
                              {"rate", given("0.1 mm/deg")}}) == "99 flats (expected within 30)");
  CHECK(refusal_of(
            "drop",
            {{"below", given("500 mm")}, {"stroke", given("190 mm")}, {"rod", given("399 mm")}}) ==
        "piston 500.00 mm below the top (expected above 0 and below the stroke)");
}

TEST_CASE("sums that can be asked in several ways want one of them") {
  CHECK(refusal_of("smoke", {}) ==
        "no smoke is given (expected opacity=MEASURE, k=NUMBER or card=NUMBER)");
  CHECK(refusal_of("smoke", {{"opacity", given("100 %")}}) ==
        "an opacity of 100 % (expected 0 and below 100)");
  CHECK(refusal_of("units", {}) == "nothing to convert (expected a measure, as pressure=1500psi)");
  CHECK(refusal_of("timing-shim", {{"rate", given("0.1 mm/deg")}}) ==
        "nothing is asked (expected late=MEASURE, or thickness=MEASURE)");
  CHECK(refusal_of("spread", {{"reading", given("28 bar", 0)}, {"limit", given("2 bar")}}) ==
        "1 cylinder to compare (expected two or more, as 1:reading=28bar)");
  CHECK(refusal_of("arc", {{"arc", given("3 mm")}}) ==
        "the rim is not known (expected diameter=MEASURE or scale=MEASURE)");
}

TEST_CASE("at stop nothing is delivered and a longer stroke is more fuel") {
  // Common practice, no published source.
  const auto family = soot::test::hagmoss();
  const auto fuel = [&](const char* rack) {
    const auto sum =
        work("delivery", family, {{"rack", given(rack)}, {"no-delivery", given("2.5 mm")}}).value();
    return std::pair{soot::test::result(sum, "effective stroke"), soot::test::result(sum, "fuel")};
  };
  CHECK(fuel("0 mm") == std::pair{0.0, 0.0});
  CHECK(fuel("2.5 mm") == std::pair{0.0, 0.0});
  CHECK(fuel("7.2 mm").first > fuel("5 mm").first);
  CHECK(fuel("7.2 mm").second > fuel("5 mm").second);
  const auto stopped =
      work("delivery", family, {{"rack", given("0 mm")}, {"no-delivery", given("2.5 mm")}}).value();
  CHECK(stopped.answer.front() ==
        "nothing is delivered: the way to the top is open for the whole stroke");
}
