// The six faults told apart, a few simulated engines of each family; `signatures` runs them all and
// prints the figure.
#include "tests/signatures/simulate.hpp"
#include "tests/signatures/trial.hpp"
#include "tests/workbench/real_bench.hpp"

namespace {

constexpr std::uint64_t few_seeds = 2;  // each engine takes seconds

void all_six(const std::string& family) {
  const auto engine = soot::test::real_bench().engine(family);
  REQUIRE(engine);
  for (const std::string& cause : soot::test::six_causes())
    for (std::uint64_t seed = 1; seed <= few_seeds; ++seed) {
      CAPTURE(cause);
      CAPTURE(seed);
      CHECK(soot::test::try_cause(*engine, cause, seed).first == cause);
    }
}

}  // namespace

TEST_CASE("six signatures on a two-stroke of two cylinders") {
  all_six("sallowness-2");
}

TEST_CASE("six signatures on three cylinders") {
  all_six("wickerlode-3");
}

// Thousands of joint grades of the engine-wide causes: once too much work, and estimated wrongly.
TEST_CASE("a tooth out on six cylinders with every quantity read") {
  const auto engine = soot::test::real_bench().engine("grebemouth-6");
  REQUIRE(engine);
  const soot::test::Trial trial = soot::test::try_cause(*engine, "gear-tooth-out", 5);
  CHECK(trial.first == "gear-tooth-out");
  CHECK(trial.probability > 0.9);
}
