// As oracle_test.cpp, two thousand models more.
#include "tests/infer/against_oracle.hpp"

#include <doctest/doctest.h>

namespace {

void check_seeds(std::uint64_t from) {
  for (std::uint64_t seed = from; seed < from + 500; ++seed) {
    const soot::tests::Comparison comparison = soot::tests::compare_with_oracle(seed);
    CAPTURE(seed);
    CAPTURE(comparison.worst_of);
    CHECK(comparison.worst < 1e-9);
  }
}

}  // namespace

TEST_CASE("five hundred random models - one") {
  check_seeds(1000);
}
TEST_CASE("five hundred random models - two") {
  check_seeds(1500);
}
TEST_CASE("five hundred random models - three") {
  check_seeds(2000);
}
TEST_CASE("five hundred random models - four") {
  check_seeds(2500);
}
