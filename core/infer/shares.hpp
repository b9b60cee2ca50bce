// Internal to core/infer. What each engine-wide grade and each wrong instrument has of the evidence
// so far, so that a further regime is known to matter or not. All logs.
#pragma once

#include "core/infer/commons.hpp"

#include <cstddef>
#include <limits>
#include <vector>

namespace soot::infer {

/// log of 0.
inline constexpr double nothing = -std::numeric_limits<double>::infinity();

double log_add(double a, double b);
/// log of the sum of exp(logs[i]); `logs` is used up.
double log_sum(std::vector<double>& logs);

class Shares {
 public:
  explicit Shares(const std::vector<CommonState>& states);

  void add(const CommonState& state, double log_mass);
  double whole() const { return whole_; }
  /// Error that these states together may leave without harm to any of their causes' answers.
  double harmless(const std::vector<CommonState>& states,
                  const std::vector<std::size_t>& which) const;

 private:
  double whole_;
  std::vector<std::vector<double>> of_grade_;  ///< one row a common; grade 0 not kept
  std::vector<double> of_fault_;
};

}  // namespace soot::infer
