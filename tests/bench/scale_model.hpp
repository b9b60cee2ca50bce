// Generated models of the product's size: six cylinders, 71 engine-wide causes and 64 of a
// cylinder (455 instances), timing, compression and opening pressure measured. Invented figures.
#pragma once

#include "core/infer/evidence.hpp"
#include "core/infer/network.hpp"

#include <cstdint>
#include <vector>

namespace soot::tests {

struct Scale {
  int cylinders = 6;
  std::size_t present = 10;  ///< symptoms; three in ten of them on a cylinder
  std::size_t absent = 30;
  double heard = 0.2;  ///< share of the causes that act on a symptom: of ten present, two a cause
  std::size_t readings = 24;  ///< depth, spill and compression of each cylinder first
  bool known_history = true;
  bool instruments = false;  ///< wrong ones, and scatter of engine-wide causes
};

struct ScaleModel {
  infer::Network network;
  infer::Evidence evidence;
  std::vector<infer::Finding> unmade_looks;     ///< as present
  std::vector<infer::Reading> unmade_readings;  ///< with the instrument's sd, bounds open
};

/// The same seed gives the same model anywhere. The evidence is drawn from two causes of the model.
ScaleModel scale_model(const Scale& scale, std::uint64_t seed);

}  // namespace soot::tests
