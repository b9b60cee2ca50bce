// The sampler against sums done by hand: long runs of it must show the chances and the normal
// numbers that the description of a small network gives.
#include "tests/calibration/sampler.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <functional>

namespace soot::judges {
namespace {

constexpr int runs = 20000;

// Two histories, an engine-wide cause of two grades with a curved effect and a cylinder's cause
// with a straight one, a symptom, a quantity of each scope.
infer::Network network() {
  infer::Network net;
  net.histories = {"calm", "rough"};
  net.history_prior = {0.75, 0.25};
  net.cylinders = 2;
  net.terms = {"late"};
  infer::Cause common;
  common.scope = infer::Scope::engine;
  common.grades = 2;
  common.prior = {{0.1, 0.1}, {0.4, 0.2}};
  common.effects = {{0, {2.0, 10.0}, {0.5, 0.0}, {0.0, 0.3}}};
  infer::Cause single;
  single.scope = infer::Scope::cylinder;
  single.prior = {{0.2}, {0.2}};
  single.effects = {{0, {3.0}, {0.0}, {}}};
  net.causes = {common, single};
  infer::Symptom symptom;
  symptom.scope = infer::Scope::cylinder;
  symptom.leak = 0.05;
  symptom.missed = 0.1;
  symptom.imagined = 0.02;
  symptom.links = {{0, {0.5, 0.9}}, {1, {0.8}}};
  net.symptoms = {symptom};
  infer::Quantity depth;
  depth.scope = infer::Scope::cylinder;
  depth.nominal = 30;
  depth.spread = 0.2;
  depth.responses = {{0, infer::Curve{{{0, 0}, {5, 5}, {20, 35}}}}};
  net.quantities = {depth};
  net.instrument_faults = {{0, 0.1, 1.0, 0.5}};
  return net;
}

// Share of the drawn engines for which `is` holds.
double share(const std::function<bool(DrawnEngine&)>& is) {
  const infer::Network net = network();
  Dice dice(3);
  int there = 0;
  for (int run = 0; run < runs; ++run) {
    DrawnEngine engine(net, dice);
    there += is(engine) ? 1 : 0;
  }
  return static_cast<double>(there) / runs;
}

// Four standard errors of a share.
void check_share(double seen, double wanted) {
  CHECK(std::abs(seen - wanted) < 4 * std::sqrt(wanted * (1 - wanted) / runs));
}

}  // namespace

TEST_CASE("histories and causes come as often as their priors say") {
  check_share(share([](DrawnEngine& e) { return e.history() == 1; }), 0.25);
  check_share(share([](DrawnEngine& e) { return e.has(0); }), 0.75 * 0.2 + 0.25 * 0.6);
  check_share(share([](DrawnEngine& e) { return e.has(1); }), 1 - 0.8 * 0.8);
  check_share(share([](DrawnEngine& e) { return e.instrument_is_wrong(0); }), 0.1);
}

TEST_CASE("a report is a leaky or of what is noticed") {
  // P(absent) = (1 - leak)(1 - imagined) E[(1 - 0.9 s) over the common cause] (1 - 0.2 * 0.72)
  const double common = 1 - 0.75 * (0.1 * 0.45 + 0.1 * 0.81) - 0.25 * (0.4 * 0.45 + 0.2 * 0.81);
  const double absent = 0.95 * 0.98 * common * (1 - 0.2 * 0.72);
  check_share(share([](DrawnEngine& e) { return e.report(0, 2); }), 1 - absent);
}

TEST_CASE("a reading is the curve at the common shift and its slope for the rest") {
  infer::Network net = network();
  net.instrument_faults.clear();
  net.causes[0].prior = {{0, 1}, {0, 1}};  // 10 late for certain, scatter 0.3: shift 15, slope 2
  net.causes[1].prior = {{1}, {1}};        // 3 of its own: 6 more
  Dice dice(5);
  double sum = 0, squares = 0;
  for (int run = 0; run < runs; ++run) {
    DrawnEngine engine(net, dice);
    const double value = engine.read(0, 1, 0.4);
    sum += value;
    squares += value * value;
  }
  const double mean = sum / runs;
  const double sd = std::sqrt(squares / runs - mean * mean);
  const double wanted = std::sqrt(0.2 * 0.2 + 0.4 * 0.4 + 0.6 * 0.6);
  CHECK(std::abs(mean - 51) < 4 * wanted / std::sqrt(runs));
  CHECK(std::abs(sd - wanted) < 4 * wanted / std::sqrt(2.0 * runs));
}

TEST_CASE("repeated readings share all but the scatter of the instrument") {
  const infer::Network net = network();
  Dice dice(9);
  for (int run = 0; run < 200; ++run) {
    DrawnEngine engine(net, dice);
    const double first = engine.read(0, 1, 1e-9);
    CHECK(std::abs(engine.read(0, 1, 1e-9) - first) < 1e-6);
  }
}

TEST_CASE("the same seed draws the same engines") {
  const infer::Network net = network();
  Dice one(11), two(11);
  for (int run = 0; run < 100; ++run) {
    DrawnEngine a(net, one), b(net, two);
    CHECK(a.history() == b.history());
    CHECK(a.has(0) == b.has(0));
    CHECK(a.read(0, 2, 0.1) == b.read(0, 2, 0.1));
  }
}

}  // namespace soot::judges
