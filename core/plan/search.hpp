// The look-ahead over all moves: value of a move = its cost, its change of bits, and what follows,
// averaged over what it may tell. A correction does not force the run: the run is a move of its
// own, so that one more job under an open cover is found before it.
#pragma once

#include "core/plan/answer.hpp"
#include "core/plan/leaf.hpp"
#include "core/plan/tables.hpp"

#include <limits>
#include <vector>

namespace soot::plan {

inline constexpr double no_bound = std::numeric_limits<double>::infinity();

/// A plan: what it costs and how it begins.
struct Found {
  double cost = no_bound;
  Move first;
  Move act;            ///< its first move that is no check, as far as looked ahead
  bool forks = false;  ///< which move that is depends on what checks before it tell
};

class Search {
 public:
  /// `budget`: updates of the belief times states, over all calls.
  Search(const Tables& tables, Left checks, Left corrections, std::size_t budget);

  /// The best plan from here, `depth` moves looked ahead (0 = no checks, no choice).
  Found look(const Belief& belief, const Configuration& now, int depth);

  /// The plan that begins with this move; infinite cost if a check says nothing. May give up with
  /// infinite cost when it is sure to reach `bound`.
  Found step(const Move& move, const Belief& belief, const Configuration& now, int depth,
             double bound = no_bound);

  struct Survey {
    std::vector<Found> plans;  ///< one a move that makes sense, cheapest first
    int deep = 1;
  };
  /// Every move by one step, the best few again by `depth` steps as far as the budget goes.
  Survey survey(const Belief& belief, const Configuration& now, int depth);

  std::size_t work() const { return work_; }
  Leaf& leaf() { return leaf_; }

 private:
  std::vector<Move> moves(const Belief& belief) const;
  Found step_check(std::size_t index, const Belief& belief, const Configuration& now, int depth,
                   double bound);
  bool says_nothing(const CheckTable& check, const Belief& belief) const;
  Belief after_failed_run(const Belief& belief);
  bool exhausted() const { return work_ > budget_; }

  const Tables& tables_;
  Leaf leaf_;
  Left checks_;
  Left corrections_;
  std::size_t budget_;
  std::size_t work_ = 0;
};

}  // namespace soot::plan
