#include "core/plan/search.hpp"

#include <algorithm>
#include <utility>

namespace soot::plan {

namespace {

constexpr std::size_t beam = 4;
constexpr double no_better = 1e-9;
constexpr double no_outcome = 1e-12;
constexpr double same_row = 1e-9;
constexpr double hits_nothing = 1e-6;
constexpr double not_sound = 1e-9;

bool cheaper(const Found& a, const Found& b) {
  return a.cost < b.cost;
}

}  // namespace

Search::Search(const Tables& tables, Left checks, Left corrections, std::size_t budget)
    : tables_(tables),
      leaf_(tables),
      checks_(std::move(checks)),
      corrections_(std::move(corrections)),
      budget_(budget) {}

std::vector<Move> Search::moves(const Belief& belief) const {
  std::vector<Move> found;
  if (tables_.can_run && belief[tables_.sound] > not_sound) found.push_back({MoveKind::run, 0});
  for (std::size_t index = 0; index < checks_.size(); ++index)
    if (checks_[index] != 0) found.push_back({MoveKind::check, index});
  for (std::size_t index = 0; index < corrections_.size(); ++index)
    if (corrections_[index] != 0 && weight_hit(tables_.corrections[index], belief) > hits_nothing)
      found.push_back({MoveKind::correction, index});
  return found;
}

Found Search::look(const Belief& belief, const Configuration& now, int depth) {
  const Rest rest = leaf_(belief, now, corrections_);
  Found best{rest.cost, rest.first, rest.first, false};
  if (depth == 0 || exhausted()) return best;
  if (depth > 1) {
    const std::vector<Found> plans = survey(belief, now, depth).plans;
    return plans.front().cost < best.cost - no_better ? plans.front() : best;
  }
  for (const Move& move : moves(belief)) {
    if (exhausted()) break;
    const Found plan = step(move, belief, now, depth - 1, best.cost);
    if (plan.cost < best.cost - no_better) best = plan;
  }
  return best;
}

Search::Survey Search::survey(const Belief& belief, const Configuration& now, int depth) {
  Survey survey;
  std::vector<Found>& plans = survey.plans;
  for (const Move& move : moves(belief))
    plans.push_back(step(move, belief, now, 0));
  const Move hand_over{MoveKind::hand_over, 0};
  plans.push_back({tables_.hand_over, hand_over, hand_over, false});
  std::stable_sort(plans.begin(), plans.end(), cheaper);
  if (depth == 1) return survey;

  std::size_t deepened = 0;
  for (Found& plan : plans) {
    if (deepened == beam || exhausted() || plan.cost == no_bound) break;
    if (plan.first.kind == MoveKind::hand_over) continue;
    const Found deeper = step(plan.first, belief, now, depth - 1);
    if (exhausted()) break;  // cut short somewhere inside: not comparable with the others
    plan = deeper;
    survey.deep = depth;
    ++deepened;
  }
  std::stable_sort(plans.begin(), plans.end(), cheaper);
  return survey;
}

Found Search::step(const Move& move, const Belief& belief, const Configuration& now, int depth,
                   double bound) {
  Found found{no_bound, move, move, false};
  if (move.kind == MoveKind::check) return step_check(move.index, belief, now, depth, bound);
  if (move.kind == MoveKind::hand_over) {
    found.cost = tables_.hand_over;
  } else if (move.kind == MoveKind::run) {
    const double cost = tables_.run.cost + tables_.change_cost(tables_.run, now);
    const double wrong = 1 - belief[tables_.sound];
    found.cost = cost;
    if (wrong > not_sound && cost < bound)
      found.cost += wrong * look(after_failed_run(belief), tables_.run.after(now), depth + 1).cost;
  } else {
    const CorrectionTable& correction = tables_.corrections[move.index];
    const double cost = correction.need.cost + tables_.change_cost(correction.need, now);
    if (cost >= bound) return found;
    Belief after = belief;
    correct(correction, after);
    work_ += tables_.states;
    corrections_[move.index] = 0;
    found.cost = cost + look(after, correction.need.after(now), depth).cost;
    corrections_[move.index] = 1;
  }
  return found;
}

Found Search::step_check(std::size_t index, const Belief& belief, const Configuration& now,
                         int depth, double bound) {
  const CheckTable& check = tables_.checks[index];
  Found found{no_bound, {MoveKind::check, index}, {}, false};
  double cost = check.need.cost + tables_.change_cost(check.need, now);
  if (cost >= bound || says_nothing(check, belief)) return found;
  const Configuration then = check.need.after(now);
  Belief after(tables_.states);
  bool any = false;
  const unsigned char was_left = std::exchange(checks_[index], static_cast<unsigned char>(0));
  for (std::size_t outcome = 0; outcome < check.outcomes && cost < bound; ++outcome) {
    const double* row = check.rows.data() + outcome * tables_.states;
    double chance = 0;
    for (std::size_t state = 0; state < tables_.states; ++state)
      chance += after[state] = belief[state] * row[state];
    if (chance < no_outcome) continue;
    for (double& weight : after)
      weight /= chance;
    work_ += tables_.states;
    const Found next = look(after, then, depth);
    cost += chance * next.cost;
    found.forks = found.forks || next.forks || (any && !(next.act == found.act));
    if (!any) found.act = next.act;
    any = true;
  }
  checks_[index] = was_left;
  if (cost < bound) found.cost = cost;
  return found;
}

bool Search::says_nothing(const CheckTable& check, const Belief& belief) const {
  for (std::size_t outcome = 0; outcome < check.outcomes; ++outcome) {
    const double* row = check.rows.data() + outcome * tables_.states;
    double least = no_bound;
    double most = -no_bound;
    for (std::size_t state = 0; state < tables_.states; ++state) {
      if (belief[state] <= 0) continue;
      least = std::min(least, row[state]);
      most = std::max(most, row[state]);
    }
    if (most - least >= same_row) return false;
  }
  return true;
}

Belief Search::after_failed_run(const Belief& belief) {
  Belief after = belief;
  after[tables_.sound] = 0;
  const double wrong = 1 - belief[tables_.sound];
  for (double& weight : after)
    weight /= wrong;
  work_ += tables_.states;
  return after;
}

}  // namespace soot::plan
