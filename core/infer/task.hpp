// Internal to core/infer. One network and one evidence made ready: everything that is the same for
// all histories. The work is estimated on the way, and refused before it is begun.
#pragma once

#include "core/infer/answer.hpp"
#include "core/infer/group.hpp"

#include <cstddef>
#include <vector>

namespace soot::infer {

struct Task {
  const Network* network = nullptr;
  Evidence evidence;
  Instances instances;
  Reports reports;
  Partition partition;
  std::vector<std::size_t> histories;  ///< those that are possible with the absent findings
  std::vector<double> log_weight;      ///< one a possible history: prior and absorbed findings
  std::vector<Priors> priors;          ///< one a possible history
  std::vector<PreparedGroup> groups;
  double no_fault = 1;  ///< prior probability that no instrument that was used is wrong

  bool impossible() const { return histories.empty(); }
};

Result<Task> prepare(const Network& network, const Evidence& evidence, const Limits& limits);

Posterior posterior_of(const Task& task);
/// Natural log, forward only; minus infinity if impossible.
double log_evidence_of(const Task& task);

}  // namespace soot::infer
