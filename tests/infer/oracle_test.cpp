// Random small models, every feature on and off at random, against joint enumeration: evidence,
// histories, every grade, any and none over the cylinders, not listed, wrong instruments, and the
// five best explanations with some causes summed out. 1e-9 relative.
#include "tests/infer/against_oracle.hpp"

#include <doctest/doctest.h>

namespace {

void check_seeds(
    std::uint64_t from, std::uint64_t to,
    soot::tests::Comparison (*compare)(std::uint64_t) = soot::tests::compare_with_oracle) {
  int impossible = 0;
  int figures = 0;
  for (std::uint64_t seed = from; seed < to; ++seed) {
    const soot::tests::Comparison comparison = compare(seed);
    CAPTURE(seed);
    CAPTURE(comparison.worst_of);
    CHECK(comparison.worst < 1e-9);
    impossible += comparison.impossible ? 1 : 0;
    figures += comparison.figures;
  }
  // The comparison must not have been of nothing.
  CHECK(static_cast<std::uint64_t>(impossible) < (to - from) / 2);
  CHECK(static_cast<std::uint64_t>(figures) > 15 * (to - from));
}

}  // namespace

TEST_CASE("random models against enumeration - first hundred") {
  check_seeds(1, 101);
}
TEST_CASE("random models against enumeration - second hundred") {
  check_seeds(101, 201);
}
TEST_CASE("random models against enumeration - third hundred") {
  check_seeds(201, 301);
}
TEST_CASE("a further reading in bands against enumeration") {
  check_seeds(1, 101, soot::tests::compare_bands_with_oracle);
}
