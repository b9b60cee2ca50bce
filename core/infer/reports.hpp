// Internal to core/infer. Turns what was reported into two kinds of things. A report that says
// "certainly absent" is a product over the causes and is absorbed into their priors. Every other
// symptom that was looked at becomes one *bit*: did some listed cause fire it? Several reports of
// one symptom and cylinder multiply their weights (k0, k1) and share the bit.
//
// The leak is no cause: it stands in the closing weights of the bit, so that one table answers at
// once how probable the evidence is and how probable it is that nothing listed explains a finding.
#pragma once

#include "core/infer/evidence.hpp"
#include "core/infer/instances.hpp"

#include <cstddef>
#include <optional>
#include <vector>

namespace soot::infer {

struct Bit {
  std::size_t symptom = 0;
  int cylinder = 0;
  double fired = 1;      ///< weight if a listed cause fired it: k1
  double quiet = 0;      ///< weight if none did: k1 leak' + k0 (1 - leak')
  double leak_only = 0;  ///< the part of `quiet` where the symptom is truly there: k1 leak
};

/// A bit that an instance can fire; strength[g] of grade g, strength[0] = 0.
struct Touch {
  std::size_t bit = 0;
  GradeRow strength;
};

struct Reports {
  bool impossible = false;  ///< some symptom was reported both certainly there and certainly not
  std::vector<Bit> bits;
  std::vector<std::vector<Touch>> touches;         ///< one row an instance
  std::vector<std::optional<std::size_t>> bit_of;  ///< one a finding; nothing if absorbed
  /// product over absorbed findings of (1 - strength), one row an instance, one a grade
  std::vector<GradeRow> absorbed;
  double log_constant = 0;  ///< of the absorbed findings' leaks and weights
};

Reports sort_reports(const Network& network, const Instances& instances, const Evidence& evidence);

/// Priors given one history with the absent findings absorbed, normalised.
struct Priors {
  bool possible = true;
  double log_constant = 0;      ///< of the normalisation
  std::vector<GradeRow> grade;  ///< one row an instance, over grades 0..n
};

Priors absorb(const Network& network, const Instances& instances, const Reports& reports,
              std::size_t history);

}  // namespace soot::infer
