// Internal to core/infer. What the search for the best explanations stands on: the chain turned
// round (groups first, then plain causes of interest, then the rest), with the backward tables of
// every history, so that the exact mass of any beginning of an explanation (all its completions
// together) is one contraction.
#pragma once

#include "core/infer/chain.hpp"
#include "core/infer/task.hpp"

#include <cstddef>
#include <vector>

namespace soot::infer {

class SearchTables {
 public:
  /// `of_interest`: one an instance.
  SearchTables(const Task& task, const std::vector<bool>& of_interest);

  double total() const { return total_; }
  std::size_t histories() const { return weight_.size(); }
  std::size_t groups() const { return task_.groups.size(); }
  const Task& task() const { return task_; }
  /// Plain (and idle) instances of interest, those most likely present first.
  const std::vector<std::size_t>& plain() const { return plain_; }

  /// One pair a history: before the first group, with the histories' weights.
  std::vector<Pair> start() const;
  /// Masses of what group g can add to an explanation that has come to `before` and `choices` in
  /// it.
  Parts parts(std::size_t group, const std::vector<Pair>& before, const Choices& choices) const;
  std::vector<Pair> add_group(std::size_t group, const std::vector<Pair>& before,
                              const Choices& choices) const;
  /// One table a history, after all groups.
  std::vector<Table> close_groups(const std::vector<Pair>& before) const;
  /// Mass of `table` (history h) before the `which`-th plain instance.
  double mass(std::size_t h, const Table& table, std::size_t which) const {
    return dot(table, after_plain_[h][which]);
  }

  const GroupPass& group(std::size_t h, std::size_t g) const { return passes_[h][g]; }

 private:
  const Task& task_;
  std::vector<std::size_t> plain_;
  std::vector<double> weight_;                   ///< one a history
  std::vector<std::vector<Table>> after_plain_;  ///< [history][place in plain_, and one more]
  std::vector<std::vector<GroupPass>> passes_;   ///< [history][group]
  std::vector<std::vector<Pair>> after_group_;   ///< [history][group]
  double total_ = 0;
};

}  // namespace soot::infer
