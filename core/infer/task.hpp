// Internal to core/infer. One network and one evidence made ready: everything that is the same for
// all histories. The work is estimated on the way, and refused before it is begun.
#pragma once

#include "core/infer/answer.hpp"
#include "core/infer/chain.hpp"
#include "core/infer/group.hpp"

#include <cstddef>
#include <memory>
#include <vector>

namespace soot::infer {

/// What is kept when the same is asked with other priors and strengths; what the tolerance gives up
/// was chosen by those it was made with.
struct Plan {
  Partition partition;
  std::vector<bool> is_idle;  ///< one an instance: touches no evidence
  Forest forest;
  std::vector<std::shared_ptr<const PreparedGroup>> groups;  ///< one a group of the partition
  Chain chain;
};

struct Task {
  const Network* network = nullptr;
  Evidence evidence;  ///< exact repeats merged
  Instances instances;
  Reports reports;
  double log_constant = 0;             ///< of the merged repeats
  std::vector<std::size_t> histories;  ///< those that are possible with the absent findings
  std::vector<double> log_weight;      ///< one a possible history: prior and absorbed findings
  std::vector<Priors> priors;          ///< one a possible history
  std::shared_ptr<const Plan> plan;    ///< shared by copies that ask otherwise
  double tolerance = 0;                ///< it was made with
  double no_fault = 1;  ///< prior probability that no instrument that was used is wrong

  bool impossible() const { return histories.empty(); }
};

/// Of a sound network and sound evidence; fails only when it is too much work.
/// `before`: a task of the same network and reports made with the same limits; what was prepared
/// there of groups whose readings are the same is shared.
Result<Task> prepare(const Network& network, const Evidence& evidence, const Limits& limits,
                     const Task* before = nullptr);
/// What is not sound about them.
Result<void> check(const Network& network, const Evidence& evidence);

/// `by_cause`: with what holds "in any cylinder".
Posterior posterior_of(const Task& task, bool by_cause = true);
/// The same with other priors and weights, one a possible history.
Posterior posterior_of(const Task& task, const std::vector<Priors>& priors,
                       const std::vector<double>& log_weight, bool by_cause);
std::vector<Explanation> explanations_of(const Task& task, const Evidence& evidence,
                                         const ExplanationQuery& query, const Limits& limits);
/// `whole`: the task's posterior.
std::optional<Stability> stability_of(const Task& task, const Evidence& evidence,
                                      const Posterior& whole, const StabilityQuery& query);
/// Natural log, forward only; minus infinity if impossible.
double log_evidence_of(const Task& task);

}  // namespace soot::infer
