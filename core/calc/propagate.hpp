// The uncertainty of a result that is worked out from several inputs: each is moved by its standard
// uncertainty either way, and what that does to the result is combined in squares.
//
// Source: JCGM 100:2008 (GUM), 5.1.2 and 5.1.3 note 2 (differences in place of derivatives), 6.2
// (k = 2). Inputs are independent.
#pragma once

#include <functional>
#include <span>
#include <vector>

namespace soot::calc {

struct Estimate {
  double value = 0;
  double standard = 0;  ///< >= 0
};

using Formula = std::function<double(std::span<const double>)>;

/// The result at the inputs' values. Where the formula has no finite answer a step away, the step
/// on the other side stands for both.
Estimate propagate(std::span<const Estimate> inputs, const Formula& formula);

/// U, k = 2.
inline double expanded(const Estimate& estimate) {
  return 2 * estimate.standard;
}

}  // namespace soot::calc
