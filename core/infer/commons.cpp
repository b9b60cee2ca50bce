#include "core/infer/commons.hpp"

namespace soot::infer {

namespace {

void add_magnitude(const std::optional<Share>& share, double mean, double sd, Moves& moves) {
  if (share)
    moves.shifts.push_back(
        {share->direction, share->ratio * mean, share->ratio * share->ratio * sd * sd});
}

/// One entry a grade.
std::vector<Moves> moves_of(const Cause& cause, const Directions& directions) {
  std::vector<Moves> all(cause.grades + 1);
  for (std::size_t g = 0; g < cause.grades; ++g)
    for (const Effect& effect : cause.effects) {
      add_magnitude(directions.of_term[effect.term], effect.mean[g], effect.sd[g], all[g + 1]);
      if (!effect.scatter.empty())
        all[g + 1].scatter.emplace_back(effect.term, effect.scatter[g] * effect.scatter[g]);
    }
  return all;
}

void add(const Moves& moves, CommonState& state) {
  for (const Moves::Shift& shift : moves.shifts) {
    state.mean[shift.direction] += shift.mean;
    state.variance[shift.direction] += shift.variance;
  }
  for (const auto& [term, variance] : moves.scatter)
    state.scatter[term] += variance;
}

}  // namespace

Commons::Commons(const Network& network, const Instances& instances, const Group& group,
                 const Directions& directions, const std::vector<std::vector<bool>>& possible)
    : directions_(directions.all.size()),
      terms_(network.terms.size()),
      grades_(network, instances, group.commons) {
  for (const std::size_t common : group.commons)
    of_grade_.push_back(moves_of(network.causes[instances[common].cause], directions));
  for (const std::size_t entry : group.faults) {
    const InstrumentFault& wrong = network.instrument_faults[entry];
    of_fault_.emplace_back();
    add_magnitude(directions.of_fault[entry], wrong.mean, wrong.sd, of_fault_.back());
  }
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

std::optional<std::size_t> Commons::fault_of(std::size_t i) const {
  const std::size_t fault = codes_[i] / grades_.total();
  return fault > 0 ? std::optional{fault - 1} : std::nullopt;
}

void Commons::make(std::size_t i, CommonState& state) const {
  state.mean.assign(directions_, 0.0);
  state.variance.assign(directions_, 0.0);
  state.scatter.assign(terms_, 0.0);
  state.grades.clear();
  for (std::size_t c = 0; c < of_grade_.size(); ++c) {
    state.grades.push_back(grade_of(i, c));
    add(of_grade_[c][state.grades.back()], state);
  }
  state.fault = fault_of(i);
  if (state.fault) add(of_fault_[*state.fault], state);
}

std::vector<CommonState> Commons::make(const std::vector<std::size_t>& which) const {
  std::vector<CommonState> states(which.size());
  for (std::size_t i = 0; i < which.size(); ++i)
    make(which[i], states[i]);
  return states;
}

}  // namespace soot::infer
