// Internal to core/infer. What each engine-wide grade and each wrong instrument has of the evidence
// so far, so that a further regime is known to matter or not. All logs.
#pragma once

#include "core/infer/commons.hpp"

#include <cmath>
#include <cstddef>
#include <limits>
#include <vector>

namespace soot::infer {

/// log of 0.
inline constexpr double nothing = -std::numeric_limits<double>::infinity();

/// What a bound on a sum may be too high: a fiftieth, at a point; half as much again within a box,
/// which is split further where that matters.
inline const double log_little = std::log(0.02), log_some = std::log(0.5);

double log_add(double a, double b);
/// log of the sum of exp(logs[i]); `logs` is used up.
double log_sum(double* logs, std::size_t count);
double log_sum(std::vector<double>& logs);

struct Tail {
  double least = nothing;    ///< of what stays
  double dropped = nothing;  ///< of all that is less, together
};
/// The smallest of them that together come to `harmless` at most; never the greatest. All logs;
/// `logs` is used up, and not empty.
Tail tail_of(std::vector<double>& logs, double harmless);

class Shares {
 public:
  explicit Shares(const Commons& commons);

  void add(const CommonState& state, double log_mass);
  double whole() const { return whole_; }
  /// Error that these states together may leave without harm to any of their causes' answers.
  double harmless(const std::vector<CommonState>& states) const;

 private:
  double whole_;
  std::vector<std::vector<double>> of_grade_;  ///< one row a common; grade 0 not kept
  std::vector<double> of_fault_;
};

}  // namespace soot::infer
