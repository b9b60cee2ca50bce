// Internal to core/infer. The engine-wide magnitudes of a group reach its readings along a few
// *directions*. Terms that move the group's quantities in one proportion (a wrong mark and a spill
// gauge that reads off) are one direction, so that one sum is integrated and not two. A term with a
// curve is a direction of its own. An instrument's offset is a direction on its one quantity.
#pragma once

#include "core/infer/evidence.hpp"
#include "core/infer/partition.hpp"

#include <cstddef>
#include <optional>
#include <vector>

namespace soot::infer {

struct Direction {
  std::vector<std::optional<Curve>> shift;  ///< one a quantity of the network; nothing = not moved
  bool straight = true;
  /// Straight, and heard by one block of the group only: its spread needs no integration, it joins
  /// that block's covariance.
  bool closed = false;
  /// Curved, and own effects or scatter pass through the same curve: the covariance depends on it.
  bool uneven = false;

  double slope(std::size_t quantity, double at) const {
    return shift[quantity] ? shift[quantity]->slope_at(at) : 0;
  }
  /// Greatest slope, without sign.
  double steepest(std::size_t quantity) const;
};

/// Share of a term (or of an offset) in a direction: what it adds is ratio times its magnitude.
struct Share {
  std::size_t direction = 0;
  double ratio = 1;
};

struct Directions {
  std::vector<Direction> all;
  std::vector<std::optional<Share>> of_term;   ///< one a term of the network
  std::vector<std::optional<Share>> of_fault;  ///< one an instrument fault of the network
};

Directions directions_of(const Network& network, const Instances& instances,
                         const Evidence& evidence, const Group& group);

/// The engine-wide state that the blocks hear at one node of the integration.
struct Shift {
  std::vector<double> at;        ///< one a direction: the sum of the engine-wide magnitudes
  std::vector<double> variance;  ///< one a direction: what is left unintegrated (closed ones)
  std::vector<double> scatter;   ///< one a term: variance of each cylinder's own share
};

}  // namespace soot::infer
