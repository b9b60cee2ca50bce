#include "core/host/sampled_law.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <functional>

using soot::host::SampledLaw;

namespace {

std::vector<double> samples_of(const std::function<double(double)>& lift_mm) {
  std::vector<double> lifts_mm;
  for (std::size_t i = 0; i < SampledLaw::count; ++i)
    lifts_mm.push_back(lift_mm(SampledLaw::sample_deg(i)));
  return lifts_mm;
}

/// A lift of 10 mm in a cosine from -80 to 40 crank deg, falling again after it.
double cosine_lift_mm(double crank_deg) {
  if (crank_deg < -80 || crank_deg > 160) return 0;
  return 5 * (1 - std::cos((crank_deg + 80) / 120 * 3.14159265358979323846));
}

}  // namespace

TEST_CASE("a sampled law gives back the lift between its samples") {
  const SampledLaw law = SampledLaw::from_samples(samples_of(cosine_lift_mm)).value();
  for (double crank_deg = -79.93; crank_deg < 39.9; crank_deg += 0.37) {
    CAPTURE(crank_deg);
    CHECK(std::abs(law.lift_mm(crank_deg) - cosine_lift_mm(crank_deg)) < 1e-4);
  }
  CHECK(law.total_mm() == doctest::Approx(10));
}

TEST_CASE("the base circle is nothing and past the nose the lift stays") {
  const SampledLaw law = SampledLaw::from_samples(samples_of(cosine_lift_mm)).value();
  for (const double crank_deg : {-1000.0, -360.0, -180.0, -80.0})
    CHECK(law.lift_mm(crank_deg) == 0);
  for (const double crank_deg : {40.0, 60.0, 120.0, 1000.0})
    CHECK(law.lift_mm(crank_deg) == doctest::Approx(10).epsilon(1e-9));
}

TEST_CASE("lift leads back to the angle on the rising flank only") {
  const SampledLaw law = SampledLaw::from_samples(samples_of(cosine_lift_mm)).value();
  for (double crank_deg = -70; crank_deg < 35; crank_deg += 1.3)
    CHECK(std::abs(law.angle_deg(cosine_lift_mm(crank_deg)).value() - crank_deg) < 1e-3);
  CHECK_FALSE(law.angle_deg(0).has_value());
  CHECK_FALSE(law.angle_deg(-1).has_value());
  CHECK_FALSE(law.angle_deg(law.total_mm()).has_value());
  CHECK_FALSE(law.angle_deg(11).has_value());
  CHECK_FALSE(law.angle_deg(std::nan("")).has_value());
}

TEST_CASE("the rate is the slope of the flank and nothing off it") {
  const SampledLaw law = SampledLaw::from_samples(samples_of(cosine_lift_mm)).value();
  const double pi = 3.14159265358979323846;
  for (double crank_deg = -75; crank_deg < 38; crank_deg += 2.7)
    CHECK(law.rate_mm_per_deg(crank_deg) ==
          doctest::Approx(5 * pi / 120 * std::sin((crank_deg + 80) / 120 * pi)).epsilon(1e-4));
  CHECK(law.rate_mm_per_deg(-100) == 0);
  CHECK(law.rate_mm_per_deg(50) == 0);
}

TEST_CASE("a dwell on the flank is refused") {
  const auto stepped = [](double crank_deg) {
    return crank_deg < -60 ? 0
                           : std::min(8.0, std::abs(crank_deg + 30) < 5 ? 2.5
                                           : crank_deg < -30            ? 0.1 * (crank_deg + 60)
                                                                        : 0.1 * (crank_deg + 55));
  };
  const auto law = SampledLaw::from_samples(samples_of(stepped));
  REQUIRE_FALSE(law);
  CHECK(
      law.error().front().text ==
      "lift goes from 2.5000 mm at -35.0 deg to 2.5000 mm at -34.9 deg (expected it to rise up to "
      "8.000 mm)");
}

TEST_CASE("an endless lift is refused") {
  const auto law = SampledLaw::from_samples(
      samples_of([](double crank_deg) { return crank_deg > 119 ? HUGE_VAL : 0.0; }));
  REQUIRE_FALSE(law);
  CHECK(law.error().front().text == "lift at 119.1 deg is inf (expected a finite number)");
}
