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

std::vector<CommonState> common_states(const Network& network, const Instances& instances,
                                       const Group& group, const Directions& directions,
                                       const std::vector<std::vector<bool>>& possible) {
  const Grades grades(network, instances, group.commons);
  std::vector<CommonState> states;
  for (std::size_t fault = 0; fault <= group.faults.size(); ++fault) {
    for (std::size_t assignment = 0; assignment < grades.total(); ++assignment) {
      CommonState state;
      state.mean.assign(directions.all.size(), 0.0);
      state.variance.assign(directions.all.size(), 0.0);
      state.scatter.assign(network.terms.size(), 0.0);
      bool allowed = true;
      for (std::size_t i = 0; i < group.commons.size(); ++i) {
        const std::size_t grade = grades.of(assignment, i);
        state.grades.push_back(grade);
        allowed = allowed && possible[group.commons[i]][grade];
        add_cause(state, network.causes[instances[group.commons[i]].cause], grade, directions);
      }
      if (fault > 0) {
        const std::size_t entry = group.faults[fault - 1];
        const InstrumentFault& wrong = network.instrument_faults[entry];
        allowed = allowed && wrong.prior > 0;
        state.fault = fault - 1;
        add_magnitude(state, directions.of_fault[entry], wrong.mean, wrong.sd);
      }
      if (allowed) states.push_back(std::move(state));
    }
  }
  return states;
}

}  // namespace soot::infer
