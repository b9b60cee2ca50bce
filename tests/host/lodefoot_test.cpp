// The lift law of plugins/lodefoot against the geometry of its cam: the outline is the hull of the
// base circle (radius 15 mm) and the nose's circle (5 mm, 18 mm off), so a roller of 10 mm rests
// where its centre is 10 mm from the nearest of all circles between the two. No formula of the
// plugin is used; the least distance is searched for.
#include "core/host/registry.hpp"
#include "tests/places.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <filesystem>

namespace soot::host {

namespace {

constexpr double pi = 3.14159265358979323846;

/// Distance of a point from the outline.
double distance_mm(double x, double y) {
  const auto from_circle = [&](double share) {
    return std::hypot(x - 18 * share, y) - (15 - 10 * share);
  };
  double low = 0, high = 1;
  for (int i = 0; i < 200; ++i) {  // the distance has one least along the row of circles
    const double a = low + (high - low) / 3, b = high - (high - low) / 3;
    (from_circle(a) < from_circle(b) ? high : low) = from_circle(a) < from_circle(b) ? b : a;
  }
  return from_circle((low + high) / 2);
}

/// Lift of the roller's centre when the nose stands `cam_rad` away from it.
double geometric_lift_mm(double cam_rad) {
  double low = 20, high = 40;
  for (int i = 0; i < 100; ++i) {
    const double middle = (low + high) / 2;
    (distance_mm(middle * std::cos(cam_rad), middle * std::sin(cam_rad)) < 10 ? low : high) =
        middle;
  }
  return low - 25;
}

std::shared_ptr<const soot::calc::LiftLaw> law() {
  const std::filesystem::path folder = binary_dir() + "/plugins/lodefoot";
  return Registry({read_manifest(folder).value()}).families().at(0).own_law;
}

}  // namespace

TEST_CASE("the lodefoot cam lifts as its outline says") {
  const auto own = law();
  // The nose's tip: where the geometry has 2.5 mm at 20 deg before top, on the way up.
  double low = 0, high = pi / 2;
  for (int i = 0; i < 100; ++i) {
    const double middle = (low + high) / 2;
    (geometric_lift_mm(middle) > 2.5 ? low : high) = middle;
  }
  const double tip_deg = -20 + low * 360 / pi;  // four-stroke: crank degrees
  CHECK(tip_deg == doctest::Approx(43.26).epsilon(0.001));
  for (double crank_deg = -75; crank_deg < tip_deg; crank_deg += 2.5) {
    CAPTURE(crank_deg);
    CHECK(std::abs(own->lift_mm(crank_deg) - geometric_lift_mm((tip_deg - crank_deg) * pi / 360)) <
          1e-3);
  }
  CHECK(own->lift_mm(tip_deg + 20) == doctest::Approx(8));
}

TEST_CASE("the lodefoot cam closes the port at its figure and rate") {
  const auto own = law();
  CHECK(own->lift_mm(-20) == doctest::Approx(2.5).epsilon(1e-6));
  CHECK(own->rate_mm_per_deg(-20) == doctest::Approx(0.11).epsilon(0.001));
  CHECK(own->angle_deg(2.5).value() == doctest::Approx(-20).epsilon(1e-5));
  CHECK(25.00 - own->lift_mm(0) == doctest::Approx(19.815).epsilon(1e-5));
  CHECK(own->angle_deg(4.10).value() + 20 == doctest::Approx(12.3).epsilon(0.005));
}

}  // namespace soot::host
