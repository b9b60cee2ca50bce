// Simulated engines put to the program: does the fault that is really there come first of the six?
#pragma once

#include "core/workbench/engine.hpp"

#include <cstdint>
#include <string>

namespace soot::test {

struct Trial {
  std::string truth;
  std::string first;  ///< of the six, by the chance that any cylinder has it
  double probability = 0;
  std::string refused;  ///< why the program gave no answer, if so; counts as a miss
  bool right() const { return first == truth; }
};

/// Deterministic in the seed.
Trial try_cause(const Engine& engine, const std::string& cause, std::uint64_t seed);

}  // namespace soot::test
