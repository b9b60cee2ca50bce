// Internal to core/infer. One history: forward through the groups and the plain causes to the
// probability of the evidence, backward to all marginals. The tables between the items are kept:
// the question "in any cylinder?" starts from them too.
#pragma once

#include "core/infer/chain.hpp"
#include "core/infer/forest.hpp"
#include "core/infer/group_pass.hpp"
#include "core/infer/task.hpp"

#include <cstddef>
#include <functional>
#include <memory>
#include <vector>

namespace soot::infer {

/// Tables for "no instrument wrong among the groups so far" and "one is"; the latter is empty where
/// it cannot be, and after the last group, when both are one.
struct Layers {
  std::vector<double> calm, wrong;
};

class Pass {
 public:
  /// Runs forward. `priors` are those of one history with the absent findings absorbed;
  /// `log_weight` is that history's own.
  Pass(const Task& task, const Priors& priors, double log_weight);
  /// The same as `open`, but for the open reading of a group, which lies within a band
  /// (GroupPass); what the band leaves alone is shared.
  Pass(const Pass& open, std::size_t group, const Nodes::Numbers& banded);

  /// log P(evidence, history); minus infinity if there is no way.
  double log_evidence() const { return log_evidence_; }
  bool possible() const { return evidence_ > 0; }

  void run_backward(bool by_cause);
  // After run_backward, probabilities given this history and the evidence:
  const std::vector<GradeRow>& grades() const { return grades_; }
  const std::vector<double>& faults() const { return faults_; }
  /// P(the symptom of this bit is truly there and no listed cause fired it).
  double not_listed(std::size_t bit) const { return not_listed_[bit]; }

  /// Of one cause over its instances, after run_backward with `by_cause`.
  Spread over_cylinders(std::size_t cause) const;

  const std::vector<std::shared_ptr<const GroupPass>>& groups() const { return groups_; }
  const Kernel& gradient_of_group(std::size_t step) const { return gradients_[step]; }

 private:
  struct Kept {
    Layers in;                   ///< turned, before the item joins
    std::vector<Layers> stages;  ///< joined; then after each closing
    double scale = 1;            ///< the table was divided by it
    Layers after;                ///< gradient in the step's last stage
  };

  bool has_item(const Item& item, std::size_t cause) const;
  Kernel kernel_of(const Item& item) const;
  Layers turn(const Step& step, const Layers& table) const;
  Layers joined(const Step& step, const Layers& table, const Kernel& kernel) const;
  Layers closed(const Closing& closing, const Layers& table) const;
  Layers after_groups(const Layers& table) const;
  std::shared_ptr<const GroupPass> pass_of(std::size_t group, const Nodes::Numbers* banded);
  void forward();
  void step_back(std::size_t s, Layers after);
  void open_again(std::size_t s, Layers& after);
  void hand_out(const Item& item, const Kernel& gradient);
  /// Causes of several instances, all those with evidence in this group.
  std::vector<std::size_t> causes_within(const Group& group) const;

  const Task* task_;
  const Priors* priors_;
  double log_weight_;
  std::shared_ptr<const ForestPass> forest_;
  std::vector<std::shared_ptr<const GroupPass>> groups_;
  std::vector<Kernel> kernels_;    ///< one a group
  std::vector<Kept> kept_;         ///< one a step
  std::vector<Kernel> gradients_;  ///< one a step
  double evidence_ = 0;            ///< scaled
  double log_evidence_ = 0;
  std::vector<GradeRow> grades_;
  std::vector<double> faults_, not_listed_;
  std::vector<Spread> spreads_;  ///< with `by_cause`, one a cause: of those within one group
};

/// The histories' answers mixed. `pass_of`: of the h-th possible history, run forward.
Posterior mixed_posterior(const Task& task, const std::function<Pass(std::size_t h)>& pass_of,
                          bool by_cause);

}  // namespace soot::infer
