// Internal to core/infer. Finds the nodes of a grid that can matter without looking at all of them:
// halves boxes of the grid and drops a box as soon as nothing in it can come within e^-depth of the
// best node or up to the floor.
#pragma once

#include "core/infer/quadrature.hpp"

#include <boost/container/small_vector.hpp>

#include <cstddef>
#include <functional>
#include <utility>
#include <vector>

namespace soot::infer {

constexpr std::size_t few_axes = 4;  ///< so many without asking for memory
template <class T>
using PerAxis = boost::container::small_vector<T, few_axes>;
using Place = PerAxis<std::size_t>;  ///< one index an axis

struct Sieved {
  std::vector<std::pair<Place, double>> kept;  ///< with log values, in the order of places
  double best = 0;
  bool exhausted = false;  ///< the budget ran out
};

/// Upper bound of the log value of all nodes of a box (never across two pieces of an axis), by its
/// middle node and how far it reaches from there along each axis; of a single node (all 0) its
/// value. Below `cut` any number will do.
using LogBound =
    std::function<double(const Place& middle, const PerAxis<double>& half, double cut)>;

/// `best`: a value already known elsewhere (minus infinity if none).
Sieved sieve(const std::vector<Axis>& axes, const Precision& precision, double best,
             const LogBound& log_bound, const double& budget);

}  // namespace soot::infer
