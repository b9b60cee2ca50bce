#include "core/infer/commons.hpp"

namespace soot::infer {

namespace {

void add_magnitude(CommonState& state, const std::optional<Share>& share, double mean, double sd) {
  if (!share) return;
  state.mean[share->direction] += share->ratio * mean;
  state.variance[share->direction] += share->ratio * share->ratio * sd * sd;
}

void add_cause(CommonState& state, const Cause& cause, std::size_t grade,
               const Directions& directions) {
  if (grade == 0) return;
  for (const Effect& effect : cause.effects) {
    add_magnitude(state, directions.of_term[effect.term], effect.mean[grade - 1],
                  effect.sd[grade - 1]);
    if (!effect.scatter.empty())
      state.scatter[effect.term] += effect.scatter[grade - 1] * effect.scatter[grade - 1];
  }
}

}  // namespace

Commons::Commons(const Network& network, const Instances& instances, const Group& group,
                 const Directions& directions, const std::vector<std::vector<bool>>& possible)
    : network_(network),
      instances_(instances),
      group_(group),
      directions_(directions),
      grades_(network, instances, group.commons) {
  for (std::size_t fault = 0; fault <= group.faults.size(); ++fault) {
    if (fault > 0 && !(network.instrument_faults[group.faults[fault - 1]].prior > 0)) continue;
    for (std::size_t assignment = 0; assignment < grades_.total(); ++assignment) {
      bool allowed = true;
      for (std::size_t i = 0; allowed && i < group.commons.size(); ++i)
        allowed = possible[group.commons[i]][grades_.of(assignment, i)];
      if (allowed) codes_.push_back(fault * grades_.total() + assignment);
    }
  }
}

void Commons::make(std::size_t i, CommonState& state) const {
  const std::size_t fault = codes_[i] / grades_.total();
  const std::size_t assignment = codes_[i] % grades_.total();
  state.mean.assign(directions_.all.size(), 0.0);
  state.variance.assign(directions_.all.size(), 0.0);
  state.scatter.assign(network_.terms.size(), 0.0);
  state.grades.clear();
  state.fault.reset();
  for (std::size_t c = 0; c < group_.commons.size(); ++c) {
    state.grades.push_back(grades_.of(assignment, c));
    add_cause(state, network_.causes[instances_[group_.commons[c]].cause], state.grades.back(),
              directions_);
  }
  if (fault > 0) {
    const std::size_t entry = group_.faults[fault - 1];
    const InstrumentFault& wrong = network_.instrument_faults[entry];
    state.fault = fault - 1;
    add_magnitude(state, directions_.of_fault[entry], wrong.mean, wrong.sd);
  }
}

std::vector<CommonState> Commons::make(const std::vector<std::size_t>& which) const {
  std::vector<CommonState> states(which.size());
  for (std::size_t i = 0; i < which.size(); ++i)
    make(which[i], states[i]);
  return states;
}

}  // namespace soot::infer
