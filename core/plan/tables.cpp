#include "core/plan/tables.hpp"

#include "core/plan/mending.hpp"

#include <algorithm>
#include <map>

namespace soot::plan {

namespace {

Need make_need(const std::vector<Bit>& bits, const Work& work) {
  Need need;
  need.cost = work.cost;
  need.set = with_those_above(bits, work.on);
  need.clear = with_those_below(bits, work.off);
  need.undo = with_those_below(bits, work.undo);
  for (std::size_t bit = 0; bit < bits.size(); ++bit) {
    if (need.set[bit]) need.on.push_back(bit);
    if (need.clear[bit]) need.off.push_back(bit);
  }
  return need;
}

CheckTable make_check(const Tables& tables, const Check& check) {
  CheckTable made;
  made.need = make_need(tables.bits, check.work);
  made.outcomes = check.likelihood.empty() ? check.rest.size() : check.likelihood.front().size();
  made.rows.assign(made.outcomes * tables.states, 0.0);
  for (std::size_t outcome = 0; outcome < made.outcomes; ++outcome) {
    double* row = made.rows.data() + outcome * tables.states;
    for (std::size_t state = 0; state < check.likelihood.size(); ++state)
      row[state] = check.likelihood[state][outcome];
    if (!check.rest.empty()) row[tables.rest] = check.rest[outcome];
  }
  return made;
}

CorrectionTable make_correction(const Tables& tables, const Correction& correction,
                                const std::vector<CauseSet>& sets,
                                const std::map<CauseSet, std::size_t>& index) {
  CorrectionTable made;
  made.need = make_need(tables.bits, correction.work);
  if (correction.work.access != Access::open) return made;
  for (std::size_t state = 0; state < sets.size(); ++state) {
    Affected affected{state, 0, {}};
    for (const Remainder& left : remainders(correction, sets[state])) {
      const std::size_t to = index.at(left.causes);
      affected.passages.push_back({to, left.chance});
      if (to != state) affected.moved += left.chance;
    }
    if (affected.moved > 0) made.affected.push_back(affected);
  }
  std::stable_sort(made.affected.begin(), made.affected.end(),
                   [&](const Affected& a, const Affected& b) {
                     return sets[a.state].size() < sets[b.state].size();
                   });
  return made;
}

}  // namespace

Configuration with_those_above(const std::vector<Bit>& bits, const std::vector<std::size_t>& list) {
  Configuration found;
  std::vector<std::size_t> waiting = list;
  while (!waiting.empty()) {
    const std::size_t bit = waiting.back();
    waiting.pop_back();
    if (found[bit]) continue;
    found.set(bit);
    waiting.insert(waiting.end(), bits[bit].under.begin(), bits[bit].under.end());
  }
  return found;
}

Configuration with_those_below(const std::vector<Bit>& bits, const std::vector<std::size_t>& list) {
  Configuration found;
  for (const std::size_t bit : list)
    found.set(bit);
  for (bool grown = true; grown;) {
    grown = false;
    for (std::size_t bit = 0; bit < bits.size(); ++bit) {
      if (found[bit]) continue;
      for (const std::size_t above : bits[bit].under)
        if (found[above]) {
          found.set(bit);
          grown = true;
        }
    }
  }
  return found;
}

double Tables::change_cost(const Need& need, const Configuration& now) const {
  double cost = 0;
  for (const std::size_t bit : need.on)
    if (!now[bit]) cost += bits[bit].set_cost;
  for (const std::size_t bit : need.off)
    if (now[bit]) cost += bits[bit].clear_cost;
  return cost;
}

Tables make_tables(const Situation& situation) {
  Tables made;
  std::vector<CauseSet> sets;
  std::map<CauseSet, std::size_t> index;
  double known = 0;
  for (const Hypothesis& hypothesis : situation.hypotheses) {
    sets.push_back(ascending(hypothesis.causes));
    index[sets.back()] = sets.size() - 1;
    known += hypothesis.weight;
    made.start.push_back(hypothesis.weight);
  }
  made.rest = sets.size();
  const auto empty = index.find(CauseSet{});
  made.sound = empty == index.end() ? made.rest + 1 : empty->second;
  made.states = made.rest + (empty == index.end() ? 2 : 1);
  made.start.resize(made.states, 0.0);
  if (known < 1 - no_rest)
    made.start[made.rest] = 1 - known;
  else
    for (double& weight : made.start)
      weight /= known;

  made.bits = situation.bits;
  for (const std::size_t bit : situation.bits_on)
    made.start_on.set(bit);
  for (const Check& check : situation.checks)
    made.checks.push_back(make_check(made, check));
  for (const Correction& correction : situation.corrections)
    made.corrections.push_back(make_correction(made, correction, sets, index));
  made.menders.resize(made.states);
  for (std::size_t place = 0; place < made.corrections.size(); ++place)
    for (const Affected& affected : made.corrections[place].affected)
      made.menders[affected.state].push_back({place, affected.moved});
  made.run = make_need(made.bits, situation.run);
  made.can_run = situation.run.access == Access::open;
  made.hand_over = situation.hand_over_cost;
  return made;
}

double weight_hit(const CorrectionTable& correction, const Belief& belief) {
  double sum = 0;
  for (const Affected& affected : correction.affected)
    sum += belief[affected.state];
  return sum;
}

double chance_to_mend(const CorrectionTable& correction, const Belief& belief) {
  double sum = 0;
  for (const Affected& affected : correction.affected)
    sum += belief[affected.state] * affected.moved;
  return sum;
}

void correct(const CorrectionTable& correction, Belief& belief) {
  for (const Affected& affected : correction.affected) {
    const double weight = belief[affected.state];
    if (weight == 0) continue;
    belief[affected.state] = 0;
    for (const Passage& passage : affected.passages)
      belief[passage.to] += weight * passage.chance;
  }
}

}  // namespace soot::plan
