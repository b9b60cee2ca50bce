#include "tests/bench/habits.hpp"

#include "core/plan/leaf.hpp"
#include "core/plan/tables.hpp"

#include <cmath>
#include <limits>

namespace soot::bench {

namespace {

using plan::Move;
using plan::MoveKind;

constexpr double nothing = 1e-9;
constexpr double sure_enough = 0.45;

/// A situation with its tables and what is still open.
struct Desk {
  explicit Desk(const plan::Situation& situation) : tables(plan::make_tables(situation)) {
    for (const plan::Correction& correction : situation.corrections)
      corrections.push_back(correction.work.access == plan::Access::open ? 1 : 0);
    for (const plan::Check& check : situation.checks)
      checks.push_back(check.work.access == plan::Access::open ? 1 : 0);
  }

  bool may_be_sound() const { return tables.start[tables.sound] > nothing; }
  double price(const plan::Need& need) const {
    return need.cost + tables.change_cost(need, tables.start_on);
  }
  double mends(std::size_t correction) const {
    return corrections[correction] == 0
               ? 0
               : chance_to_mend(tables.corrections[correction], tables.start);
  }

  /// Mean fall of the entropy over the states, in bits.
  double told(std::size_t index) const {
    if (checks[index] == 0) return 0;
    const plan::CheckTable& check = tables.checks[index];
    double bits = 0;
    for (std::size_t outcome = 0; outcome < check.outcomes; ++outcome) {
      const double* row = check.rows.data() + outcome * tables.states;
      double chance = 0;
      for (std::size_t state = 0; state < tables.states; ++state)
        chance += tables.start[state] * row[state];
      for (std::size_t state = 0; state < tables.states; ++state)
        if (tables.start[state] * row[state] > 0)
          bits += tables.start[state] * row[state] * std::log2(row[state] / chance);
    }
    return bits;
  }

  plan::Tables tables;
  plan::Left corrections, checks;
};

}  // namespace

Move chance_over_cost(const plan::Situation& situation) {
  const Desk desk(situation);
  return plan::Leaf(desk.tables)(desk.tables.start, desk.tables.start_on, desk.corrections).first;
}

Move cheapest_first(const plan::Situation& situation) {
  const Desk desk(situation);
  if (desk.may_be_sound()) return {MoveKind::run, 0};
  Move cheapest;
  double least = std::numeric_limits<double>::infinity();
  const auto consider = [&](MoveKind kind, std::size_t index, const plan::Need& need) {
    if (desk.price(need) >= least) return;
    least = desk.price(need);
    cheapest = {kind, index};
  };
  for (std::size_t i = 0; i < desk.checks.size(); ++i)
    if (desk.told(i) > nothing) consider(MoveKind::check, i, desk.tables.checks[i].need);
  for (std::size_t i = 0; i < desk.corrections.size(); ++i)
    if (desk.mends(i) > nothing) consider(MoveKind::correction, i, desk.tables.corrections[i].need);
  return cheapest;
}

Move most_told_for_cost(const plan::Situation& situation) {
  const Desk desk(situation);
  if (desk.may_be_sound()) return {MoveKind::run, 0};
  plan::Leaf leaf(desk.tables);
  Move correction, check;
  double best_mends = 0, best_of_corrections = 0, best_of_checks = 0;
  for (std::size_t i = 0; i < desk.corrections.size(); ++i) {
    const double mends = desk.mends(i);
    const double worth = mends / leaf.round_trip(i, desk.tables.start_on);
    if (mends > best_mends) best_mends = mends;
    if (mends <= nothing || worth <= best_of_corrections) continue;
    best_of_corrections = worth;
    correction = {MoveKind::correction, i};
  }
  if (best_mends >= sure_enough) return correction;
  for (std::size_t i = 0; i < desk.checks.size(); ++i) {
    const double told = desk.told(i);
    const double worth = told / desk.price(desk.tables.checks[i].need);
    if (told <= nothing || worth <= best_of_checks) continue;
    best_of_checks = worth;
    check = {MoveKind::check, i};
  }
  return best_of_checks > 0 ? check : correction;
}

}  // namespace soot::bench
