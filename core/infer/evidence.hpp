// What was seen and measured, in the network's terms.
#pragma once

#include "core/infer/network.hpp"

#include <cmath>
#include <limits>
#include <optional>
#include <vector>

namespace soot::infer {

/// An unsure report has literal weights: P(reported absent | present) and P(reported present |
/// absent), on top of the symptom's own noticing. missed + imagined < 1.
struct Unsure {
  double missed = 0;
  double imagined = 0;
};

struct Finding {
  std::size_t symptom = 0;
  int cylinder = 0;  ///< 1..n for a cylinder's symptom, else 0
  bool present = true;
  std::optional<Unsure> unsure;
};

/// A reading lies in [lower, upper]. lower == upper: an exact value (a density); else a censored
/// one (a probability), either end may be infinite.
struct Reading {
  std::size_t quantity = 0;
  int cylinder = 0;  ///< 1..n for a cylinder's quantity, else 0
  double lower = -std::numeric_limits<double>::infinity();
  double upper = std::numeric_limits<double>::infinity();
  double sd = 0;     ///< instrument and handling, of this reading alone; from 1e-150 to 1e150
  double shift = 0;  ///< known bias of the way it was taken, added to the mean

  bool is_exact() const { return lower == upper; }
  /// It may be anything: tells nothing.
  bool is_open() const { return std::isinf(lower) && std::isinf(upper) && lower < upper; }
  bool operator==(const Reading&) const = default;
};

struct Evidence {
  std::optional<std::size_t> history;  ///< index, if known
  std::vector<Finding> findings;       ///< several of one symptom and cylinder count together
  std::vector<Reading> readings;       ///< repeats share all but `sd`
};

/// Indices, scopes, ranges: what of the rules above is broken. Empty = sound.
Problems faults_of(const Network& network, const Evidence& evidence);

}  // namespace soot::infer
