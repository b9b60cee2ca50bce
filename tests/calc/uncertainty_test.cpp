// The examples of the guide to uncertainty, and the depth budget worked by hand.
#include "core/calc/uncertainty.hpp"

#include "core/calc/depth_budget.hpp"
#include "tests/near.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <random>

namespace calc = soot::calc;

TEST_CASE("half widths of the guide") {
  // Oracle U2: JCGM 100:2008, 4.4.5 and 4.4.6 (from memory): 96 to 104 C is 2.3 and 1.6.
  CHECK(std::fabs(calc::rectangular(4) - 2.3) < 0.05);
  CHECK(std::fabs(calc::triangular(4) - 1.6) < 0.05);
  // A step is a rectangle of half its width: F.2.2.1.
  CHECK(calc::resolution(1) == soot::test::near(calc::rectangular(0.5)));
}

TEST_CASE("shop example of one lifter depth") {
  // Worked by hand in inches, rate 0.0083 in a degree, five readings of 0.0008 in scatter:
  // 0.00058, 0.00036, 0.00029, 0.00240, 0.00125, 0.00029 give 0.0028 in, 0.34 deg.
  constexpr double inch_mm = 25.4;
  constexpr double rate = 0.0083 * inch_mm;
  const std::vector<double> readings{29.20 - 0.0203 * 1.2649, 29.20, 29.20, 29.20,
                                     29.20 + 0.0203 * 1.2649};
  REQUIRE(calc::repeats(readings).deviation == soot::test::near(0.0203 * 0.8944, 0.01));
  const auto components = calc::depth_components({}, readings, rate);
  const double combined_mm = calc::combined(components);
  CHECK(combined_mm / inch_mm == soot::test::near(0.0028, 0.03));
  CHECK(combined_mm / rate == soot::test::near(0.34, 0.03));
}

TEST_CASE("placing the crank is the largest part of a depth") {
  const std::vector<double> one{29.2};
  double largest = 0;
  std::string name;
  for (const auto& component : calc::depth_components({}, one, 0.2108))
    if (component.standard > largest) {
      largest = component.standard;
      name = component.name;
    }
  CHECK(name == "placing the crank");
}

TEST_CASE("a stated reading uncertainty takes the place of gauge and scatter") {
  calc::DepthBudget budget;
  budget.reading_mm = 0.02;
  const std::vector<double> four{1, 1, 1, 1};
  const auto components = calc::depth_components(budget, four, 0);
  REQUIRE(components.size() == 3);
  CHECK(components.front().standard == soot::test::near(0.01));
}

TEST_CASE("a depth lies outside its stated uncertainty one time in twenty") {
  // Drawn from the very distributions that the budget names; seed fixed.
  std::mt19937 random(20310402);
  const calc::DepthBudget budget;
  constexpr double rate = 0.12;
  constexpr int draws = 10000;
  const auto flat = [&](double half) {
    return std::uniform_real_distribution<double>(-half, half)(random);
  };
  std::normal_distribution<double> normal;
  for (const std::size_t count : {1U, 3U, 8U}) {
    int outside = 0;
    for (int draw = 0; draw < draws; ++draw) {
      const double common_mm = flat(budget.gauge_half_mm) + flat(budget.seat_half_mm) +
                               flat(budget.jam_half_mm) + rate * flat(budget.placing_half_deg) +
                               rate * budget.mark_deg * normal(random);
      std::vector<double> readings;
      for (std::size_t i = 0; i < count; ++i)
        readings.push_back(29.2 + common_mm + budget.repeat_mm * normal(random));
      const double error_mm = calc::repeats(readings).mean - 29.2;
      if (std::fabs(error_mm) > calc::expanded(calc::depth_components(budget, readings, rate)))
        ++outside;
    }
    CHECK(outside > 0.02 * draws);
    CHECK(outside < 0.07 * draws);
  }
}
