// The simulated engines themselves: what each fault leaves at each instrument, without scatter.
#include "tests/signatures/simulate.hpp"

#include "tests/workbench/real_bench.hpp"

#include <cmath>
#include <map>

namespace {

using soot::Engine;
using Means = std::map<std::string, double>;

/// Mean reading of each quantity on cylinder 1 (or of the engine) over many engines with that fault
/// there, less the same of sound ones.
Means left_by(const Engine& engine, const soot::test::Truth& truth) {
  constexpr int many = 400;
  std::mt19937_64 random{7};
  Means out;
  for (const bool faulty : {true, false}) {
    soot::test::Truth now = truth;
    if (!faulty) {
      now = {};
      now.lifter_low_mm.assign(truth.lifter_low_mm.size(), 0);
      now.lobe_worn_mm = now.plunger_short_mm = now.lifter_low_mm;
    }
    for (int i = 0; i < many; ++i)
      for (const auto& reading : soot::test::read_engine(engine, now, random).readings)
        if (reading.cylinder <= 1)
          out[reading.quantity] += (faulty ? 1 : -1) * reading.value.model() / many;
  }
  return out;
}

soot::test::Truth sound(const Engine& engine) {
  soot::test::Truth truth;
  truth.lifter_low_mm.assign(static_cast<std::size_t>(engine.family.cylinders), 0);
  truth.lobe_worn_mm = truth.plunger_short_mm = truth.lifter_low_mm;
  return truth;
}

}  // namespace

TEST_CASE("a fault leaves what geometry says at the instruments and nothing elsewhere") {
  const Engine& engine = soot::test::hagmoss();
  constexpr double rate = 0.12;  // of this family everywhere on its flank
  const auto near = [](double is, double expected, double within) {
    return std::fabs(is - expected) < within;
  };
  soot::test::Truth truth = sound(engine);
  truth.lifter_low_mm[0] = 0.24;
  Means left = left_by(engine, truth);
  CHECK(near(left["lifter-depth"], 0.24, 0.01));
  CHECK(near(left["lifter-base-depth"], 0.24, 0.01));
  CHECK(near(left["spill-angle"], -0.24 / rate, 0.15));
  CHECK(near(left["plunger-length"], 0, 0.01));

  truth = sound(engine);
  truth.plunger_short_mm[0] = 0.24;
  left = left_by(engine, truth);
  CHECK(near(left["lifter-depth"], 0, 0.01));
  CHECK(near(left["spill-angle"], -0.24 / rate, 0.15));
  CHECK(near(left["plunger-length"], -0.24, 0.01));

  truth = sound(engine);
  truth.drive_late_deg = 12;
  left = left_by(engine, truth);
  CHECK(near(left["lifter-depth"], 12 * rate, 0.01));
  CHECK(near(left["lifter-base-depth"], 0, 0.01));
  CHECK(near(left["spill-angle"], -12, 0.15));

  truth = sound(engine);
  truth.mark_before_top_deg = 2;
  left = left_by(engine, truth);
  CHECK(near(left["lifter-depth"], 2 * rate, 0.01));
  CHECK(near(left["spill-angle"], -2, 0.15));
  CHECK(near(left["top-centre-error"], 2, 0.1));
}
