#include "core/plan/stuck.hpp"

#include <algorithm>
#include <map>

namespace soot::plan {

namespace {

std::vector<Group> groups(const Tables& tables, Search& search, const Left& corrections) {
  std::map<std::size_t, Group> by_correction;
  for (std::size_t state = 0; state < tables.rest; ++state) {
    if (tables.start[state] <= 0) continue;
    Belief known(tables.states, 0.0);
    known[state] = 1;
    const Move first = search.leaf()(known, tables.start_on, corrections).first;
    if (first.kind != MoveKind::correction) continue;
    Group& group = by_correction[first.index];
    group.correction = first.index;
    group.weight += tables.start[state];
    group.hypotheses.push_back(state);
  }
  std::vector<Group> found;
  for (auto& [correction, group] : by_correction) {
    std::stable_sort(
        group.hypotheses.begin(), group.hypotheses.end(),
        [&](std::size_t a, std::size_t b) { return tables.start[a] > tables.start[b]; });
    found.push_back(group);
  }
  std::stable_sort(found.begin(), found.end(),
                   [](const Group& a, const Group& b) { return a.weight > b.weight; });
  return found;
}

}  // namespace

std::optional<Stuck> stuck_between(const Situation& situation, const Tables& tables, Search& search,
                                   double best_cost, const Options& options) {
  Left corrections;
  for (const Correction& correction : situation.corrections)
    corrections.push_back(correction.work.access == Access::open ? 1 : 0);
  const std::vector<Group> all = groups(tables, search, corrections);
  if (all.size() < 2 || all[1].weight < options.stuck_share) return std::nullopt;
  const std::size_t guess = all[0].correction;
  const double wasted = 1 - chance_to_mend(tables.corrections[guess], tables.start);
  if (wasted * search.leaf().round_trip(guess, tables.start_on) <= options.stuck_risk)
    return std::nullopt;

  Stuck stuck{all[0], all[1], std::nullopt, 0};
  for (std::size_t index = 0; index < situation.checks.size(); ++index) {
    if (situation.checks[index].work.access != Access::out_of_reach) continue;
    const Found plan =
        search.step({MoveKind::check, index}, tables.start, tables.start_on, 0, best_cost);
    const double saves = best_cost - plan.cost;
    if (!plan.forks || saves < no_saving || saves <= stuck.would_save) continue;
    stuck.parted_by = index;
    stuck.would_save = saves;
  }
  return stuck;
}

}  // namespace soot::plan
