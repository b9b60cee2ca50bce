// Puts one random model to core/infer and to the oracle and compares every figure.
#pragma once

#include <cstdint>
#include <string>

namespace soot::tests {

struct Comparison {
  bool impossible = false;
  int figures = 0;
  double worst = 0;      ///< relative difference
  std::string worst_of;  ///< which figure
};

Comparison compare_with_oracle(std::uint64_t seed);
/// The same of a further reading in five bands: what each of them would change, put by `what_ifs`.
Comparison compare_bands_with_oracle(std::uint64_t seed);

}  // namespace soot::tests
