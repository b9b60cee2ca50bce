#include "core/base/parallel.hpp"

#include <doctest/doctest.h>

#include <numeric>
#include <stdexcept>
#include <vector>

TEST_CASE("every piece of work is done once") {
  for (const std::size_t count : {0UL, 1UL, 2UL, 7UL, 1000UL}) {
    std::vector<int> done(count);
    soot::in_parallel(count, [&](std::size_t i) { ++done[i]; });
    CHECK(std::accumulate(done.begin(), done.end(), 0) == static_cast<int>(count));
    CHECK(done == std::vector<int>(count, 1));
  }
}

TEST_CASE("work within work is done too") {
  // Outer work for fewer than there are processors leaves some for the inner.
  for (const std::size_t outer : {2UL, 3UL, 50UL}) {
    std::vector<std::vector<int>> done(outer, std::vector<int>(30));
    soot::in_parallel(outer, [&](std::size_t i) {
      soot::in_parallel(3, [&](std::size_t j) {
        soot::in_parallel(10, [&](std::size_t k) { ++done[i][10 * j + k]; });
      });
    });
    CHECK(done == std::vector<std::vector<int>>(outer, std::vector<int>(30, 1)));
  }
}

TEST_CASE("what one piece throws reaches the caller") {
  const auto work = [](std::size_t i) {
    if (i == 1) throw std::runtime_error("no");
  };
  CHECK_THROWS_AS(soot::in_parallel(2, work), std::runtime_error);
}
