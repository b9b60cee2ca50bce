// Where an error is tolerated for speed, what is given up stays within what is stated.
#include "core/infer/answer.hpp"
#include "tests/infer/random_model.hpp"

#include <doctest/doctest.h>

#include <cmath>

using namespace soot::infer;
using namespace soot::tests;

TEST_CASE("a tolerated error moves no answer by more than is stated") {
  constexpr double tolerated = 1e-4;
  int compared = 0;
  for (std::uint64_t seed = 1; seed <= 150; ++seed) {
    const RandomModel model = random_model(seed);
    const auto full = posterior(model.network, model.evidence);
    const auto loose = posterior(model.network, model.evidence, Limits{34, tolerated});
    if (!full || !loose || full->impossible) continue;
    CAPTURE(seed);
    CHECK(loose->error_bound < 10 * tolerated);
    CHECK(std::abs(loose->log_evidence - full->log_evidence) <= 2 * tolerated);
    REQUIRE(loose->instances.size() == full->instances.size());
    for (std::size_t i = 0; i < full->instances.size(); ++i)
      for (std::size_t g = 0; g < full->instances[i].grade.size(); ++g)
        CHECK(std::abs(loose->instances[i].grade[g] - full->instances[i].grade[g]) <=
              2 * tolerated);
    ++compared;
  }
  CHECK(compared > 100);
}
