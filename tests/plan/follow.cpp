// The judge of fixture.hpp. It shares no arithmetic with the planner: beliefs are kept by cause
// sets, bits by their own rules, so that a slip in either shows as a difference.
#include "core/plan/planner.hpp"
#include "tests/plan/fixture.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <stdexcept>

namespace soot::plan::test {

namespace {

class Follower {
 public:
  Follower(const Situation& situation, const Policy& policy) : state_(situation), policy_(policy) {}

  double cost() {
    const std::vector<double> key = make_key();
    if (const auto known = memo_.find(key); known != memo_.end()) return known->second;
    const double cost = cost_of(policy_(state_));
    memo_[key] = cost;
    return cost;
  }

 private:
  double cost_of(const Move& move) {
    const Situation before = state_;
    double cost = state_.hand_over_cost;
    if (move.kind == MoveKind::run) cost = run();
    if (move.kind == MoveKind::check) cost = check(move.index);
    if (move.kind == MoveKind::correction) cost = correction(move.index);
    state_ = before;
    return cost;
  }

  double run() {
    double cost = change(state_.run);
    double wrong = 0;
    for (Hypothesis& hypothesis : state_.hypotheses) {
      if (hypothesis.causes.empty()) hypothesis.weight = 0;
      wrong += hypothesis.weight;
    }
    if (wrong < 1e-12) return cost;
    scale(wrong);
    return cost + wrong * this->cost();
  }

  double check(std::size_t index) {
    Check& check = state_.checks[index];
    check.work.access = Access::barred;
    double cost = change(check.work);
    const std::vector<Hypothesis> before = state_.hypotheses;
    for (std::size_t outcome = 0; outcome < check.likelihood[0].size(); ++outcome) {
      state_.hypotheses = before;
      double chance = 0;
      for (std::size_t row = 0; row < before.size(); ++row)
        chance += state_.hypotheses[row].weight *= check.likelihood[row][outcome];
      if (chance < 1e-12) continue;
      scale(chance);
      cost += chance * this->cost();
    }
    return cost;
  }

  double correction(std::size_t index) {
    Correction& correction = state_.corrections[index];
    correction.work.access = Access::barred;
    const double cost = change(correction.work);
    const double chance = correction.mends.at(0).chance;
    std::map<CauseSet, double> after;
    for (const Hypothesis& hypothesis : state_.hypotheses) {
      CauseSet left;
      for (const std::size_t cause : hypothesis.causes)
        if (std::none_of(correction.mends.begin(), correction.mends.end(),
                         [&](const Mend& mend) { return mend.cause == cause; }))
          left.push_back(cause);
      after[left] += hypothesis.weight * chance;
      after[hypothesis.causes] += hypothesis.weight * (1 - chance);
    }
    for (Hypothesis& hypothesis : state_.hypotheses)
      hypothesis.weight = after[hypothesis.causes];
    return cost + this->cost();
  }

  /// Cost of the work with the bits it asks for, which are changed.
  double change(const Work& work) {
    double cost = work.cost;
    std::set<std::size_t> on(state_.bits_on.begin(), state_.bits_on.end());
    for (const std::size_t bit : work.off)
      for (std::size_t other = 0; other < state_.bits.size(); ++other) {
        const std::vector<std::size_t>& under = state_.bits[other].under;
        const bool below = std::find(under.begin(), under.end(), bit) != under.end();
        if ((other == bit || below) && on.erase(other) > 0) cost += state_.bits[other].clear_cost;
      }
    for (const std::size_t bit : work.on) {
      if (on.insert(bit).second) cost += state_.bits[bit].set_cost;
      for (const std::size_t above : state_.bits[bit].under)
        if (on.insert(above).second) cost += state_.bits[above].set_cost;
    }
    state_.bits_on.assign(on.begin(), on.end());
    return cost;
  }

  void scale(double sum) {
    for (Hypothesis& hypothesis : state_.hypotheses)
      hypothesis.weight /= sum;
  }

  /// What is left to do, the bits, and the belief to 1e-9.
  std::vector<double> make_key() const {
    std::vector<double> key;
    for (const Check& check : state_.checks)
      key.push_back(check.work.access == Access::open ? 1 : 0);
    for (const Correction& correction : state_.corrections)
      key.push_back(correction.work.access == Access::open ? 1 : 0);
    for (const std::size_t bit : state_.bits_on)
      key.push_back(-1 - static_cast<double>(bit));
    for (const Hypothesis& hypothesis : state_.hypotheses)
      key.push_back(std::round(hypothesis.weight * 1e9));
    return key;
  }

  Situation state_;
  const Policy& policy_;
  std::map<std::vector<double>, double> memo_;
};

}  // namespace

double cost_of_following(const Situation& situation, const Policy& policy) {
  return Follower(situation, policy).cost();
}

Policy planner(bool two_steps) {
  return [two_steps](const Situation& situation) {
    Options options;
    if (!two_steps) options.work = 0;
    const Result<Answer> answer = next_move(situation, options);
    if (!answer) throw std::runtime_error(to_string(answer.error()));
    return answer->proposals.at(0).move;
  };
}

}  // namespace soot::plan::test
