// Internal to core/infer. Logarithm of the probability that a standard normal number lies between
// two bounds, good to full precision in both tails, in narrow intervals and at any distance.
#pragma once

namespace soot::infer {

inline constexpr double log_sqrt_two_pi = 0.91893853320467274178;

/// log P(lower < N < upper), lower < upper, either may be infinite.
double log_interval(double lower, double upper);
/// The same, not as a log: 0 beyond what a double holds.
double interval(double lower, double upper);

}  // namespace soot::infer
