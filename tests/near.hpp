// Comparison by relative difference alone. doctest's own adds 1 to the size of what it compares, so
// that a hundredth of a millimetre against nothing passes with a loose epsilon.
#pragma once

#include <doctest/doctest.h>

namespace soot::test {

/// Equal to `value` within `relative` of the larger of the two; 0 equals nothing.
inline doctest::Approx near(double value, double relative = 1e-9) {
  return doctest::Approx(value).epsilon(relative).scale(0);
}

}  // namespace soot::test
