// Internal to core/infer. One history: forward through the plain causes and the groups to the
// probability of the evidence, backward to all marginals. The tables between the factors are kept:
// the question "in any cylinder?" starts from them too.
#pragma once

#include "core/infer/chain.hpp"
#include "core/infer/task.hpp"

#include <cstddef>
#include <vector>

namespace soot::infer {

/// Plain instances of one cause, neighbours in Partition::plain.
struct Unit {
  std::size_t first = 0;
  std::size_t count = 0;
};

class Pass {
 public:
  /// Runs forward. `history` counts among the possible ones of the task.
  Pass(const Task& task, std::size_t history);

  /// log P(evidence, history); minus infinity if there is no way.
  double log_evidence() const { return log_evidence_; }
  bool possible() const { return evidence_ > 0; }

  void run_backward();
  // After run_backward, probabilities given this history and the evidence:
  const std::vector<std::vector<double>>& grades() const { return numerators_.grade; }
  const std::vector<double>& faults() const { return numerators_.fault; }
  /// P(the symptom of this bit is truly there and no listed cause fired it).
  double not_listed(std::size_t bit) const;

  struct Spread {
    double any = 0;   ///< present in some cylinder
    double none = 0;  ///< sound in every cylinder
  };
  /// Of one cause over its instances; both sums of positive parts.
  Spread over_cylinders(std::size_t cause) const;

 private:
  void backward_group(std::size_t g);
  void backward_unit(std::size_t u);
  void part(Table& sound, Table& present, std::size_t instance) const;

  const Task& task_;
  const Priors& priors_;
  BitList identity_;
  std::vector<Unit> units_;
  std::vector<Table> before_unit_;  ///< the last: after all units
  std::vector<Table> after_unit_;
  std::vector<GroupPass> groups_;
  std::vector<Kernel> kernels_;
  std::vector<Pair> before_group_;  ///< the last: after all groups
  std::vector<Pair> after_group_;
  Table closing_;
  double evidence_ = 0;
  double log_evidence_ = 0;
  Numerators numerators_;
};

}  // namespace soot::infer
