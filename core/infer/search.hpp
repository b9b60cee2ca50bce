// Internal to core/infer. What the search for the best explanations stands on: the chain over all
// bits at once (groups first, then plain causes of interest, then the rest), with the backward
// tables of every history, so that the exact mass of any beginning of an explanation (all its
// completions together) is one contraction.
#pragma once

#include "core/infer/pass.hpp"

#include <cstddef>
#include <vector>

namespace soot::infer {

class SearchTables {
 public:
  /// `of_interest`: one an instance. The passes are forward and backward.
  SearchTables(const Task& task, const std::vector<bool>& of_interest);

  double total() const { return total_; }
  std::size_t histories() const { return weight_.size(); }
  std::size_t groups() const { return task_.plan->groups.size(); }
  const Task& task() const { return task_; }
  /// Plain (and idle) instances of interest, those most likely present first.
  const std::vector<std::size_t>& plain() const { return plain_; }

  /// One a history: before the first group, with the histories' weights.
  std::vector<Layers> start() const;
  /// Masses of what group g can add to an explanation that has come to `before` and `choices` in
  /// it.
  Parts parts(std::size_t group, const std::vector<Layers>& before, const Choices& choices) const;
  std::vector<Layers> add_group(std::size_t group, const std::vector<Layers>& before,
                                const Choices& choices) const;
  /// One table a history, after all groups.
  std::vector<std::vector<double>> close_groups(const std::vector<Layers>& before) const;
  /// Mass of `table` (history h) before the `which`-th plain instance.
  double mass(std::size_t h, const std::vector<double>& table, std::size_t which) const {
    return dot(table.data(), after_plain_[h][which].data(), table.size());
  }

  const GroupPass& group(std::size_t h, std::size_t g) const { return *passes_[h][g]; }

 private:
  std::vector<double> after_all(const Priors& priors, const std::vector<std::size_t>& rest) const;

  const Task& task_;
  std::vector<std::size_t> plain_;
  std::vector<double> weight_;  ///< one a history
  /// [history][place in plain_, and one more]
  std::vector<std::vector<std::vector<double>>> after_plain_;
  std::vector<std::vector<std::shared_ptr<const GroupPass>>> passes_;  ///< [history][group]
  std::vector<std::vector<Layers>> after_group_;                       ///< [history][group]
  std::vector<Join> joins_, back_;                                     ///< one a group
  double total_ = 0;
};

/// The touches' bits explained with the grade's strengths, or the way back.
void fire_touches(std::vector<double>& table, const std::vector<Touch>& touches, std::size_t grade);
void fire_touches_back(std::vector<double>& after, const std::vector<Touch>& touches,
                       std::size_t grade);

}  // namespace soot::infer
