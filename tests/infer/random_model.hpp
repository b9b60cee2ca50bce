// Random small models with every feature switched on and off at random, and evidence for them.
#pragma once

#include "core/infer/evidence.hpp"
#include "core/infer/network.hpp"

#include <cstdint>

namespace soot::tests {

struct RandomModel {
  infer::Network network;
  infer::Evidence evidence;
};

/// The same seed gives the same model anywhere.
RandomModel random_model(std::uint64_t seed);

}  // namespace soot::tests
