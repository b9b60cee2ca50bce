#include "tests/plan/small.hpp"

#include "core/plan/mending.hpp"

#include <random>
#include <set>

namespace soot::plan::test {

namespace {

/// Sums of the engine's own numbers only: the library's distributions differ between libraries.
class Dice {
 public:
  explicit Dice(unsigned seed) : engine_(seed) {}
  std::size_t below(std::size_t count) { return engine_() % count; }
  double between(double least, double most) {
    return least + (most - least) * static_cast<double>(below(10001)) / 10000;
  }
  std::vector<double> row(std::size_t outcomes) {
    std::vector<double> chances;
    double sum = 0;
    for (std::size_t outcome = 0; outcome < outcomes; ++outcome)
      sum += chances.emplace_back(between(1, 5) * between(0.02, 1));
    for (double& chance : chances)
      chance /= sum;
    return chances;
  }

 private:
  std::mt19937 engine_;
};

constexpr std::size_t causes = 60;
constexpr std::size_t bits = 20;

void draw_hypotheses(Dice& dice, Situation& situation) {
  std::set<CauseSet> sets;
  while (sets.size() < 40) {
    std::set<std::size_t> drawn = {dice.below(causes)};
    if (dice.below(2) == 0) drawn.insert(dice.below(causes));
    sets.insert(CauseSet(drawn.begin(), drawn.end()));
  }
  double sum = 0;
  for (const CauseSet& set : sets)
    sum += situation.hypotheses.emplace_back(Hypothesis{set, dice.between(1, 20)}).weight;
  for (Hypothesis& hypothesis : situation.hypotheses)
    hypothesis.weight *= 0.95 / sum;
  for (const CauseSet& set : sets_left_by(situation.corrections, {sets.begin(), sets.end()}))
    situation.hypotheses.push_back({set, 0});
}

Check draw_check(Dice& dice, const Situation& situation) {
  Check check;
  check.work.cost = dice.between(2, 40);
  check.work.on = {dice.below(bits)};
  check.rest = dice.row(5);
  std::vector<std::vector<double>> by_cause;
  for (std::size_t cause = 0; cause < causes; ++cause)
    by_cause.push_back(dice.below(4) == 0 ? dice.row(5) : check.rest);
  for (const Hypothesis& hypothesis : situation.hypotheses)
    check.likelihood.push_back(hypothesis.causes.empty() ? check.rest
                                                         : by_cause[hypothesis.causes[0]]);
  return check;
}

}  // namespace

Situation product_size(unsigned seed) {
  Dice dice(seed);
  Situation situation;
  for (std::size_t bit = 0; bit < bits; ++bit) {
    situation.bits.push_back({dice.between(2, 60), dice.between(1, 40), {}});
    if (bit % 3 == 2) situation.bits.back().under = {bit - 1};
    situation.run.off.push_back(bit);
  }
  for (std::size_t cause = 0; cause < causes; ++cause) {
    Correction correction;
    correction.work.cost = dice.between(20, 240);
    correction.work.on = {dice.below(bits)};
    correction.mends = {{cause, dice.between(0.8, 1)}};
    if (cause % 10 == 0) correction.mends.push_back({cause + 1, 0.9});
    situation.corrections.push_back(correction);
  }
  draw_hypotheses(dice, situation);
  for (int count = 0; count < 120; ++count)
    situation.checks.push_back(draw_check(dice, situation));
  situation.run.cost = 8;
  situation.hand_over_cost = 6000;
  return situation;
}

Situation one_cause(const std::vector<double>& p, const std::vector<double>& cost,
                    double run_cost) {
  Situation situation;
  for (std::size_t cause = 0; cause < p.size(); ++cause) {
    situation.hypotheses.push_back({{cause}, p[cause]});
    Correction correction;
    correction.work.cost = cost[cause];
    correction.mends = {{cause, 1.0}};
    situation.corrections.push_back(correction);
  }
  situation.hypotheses.push_back({{}, 0});
  situation.run.cost = run_cost;
  situation.hand_over_cost = 10000;
  return situation;
}

Check yes_or_no(double cost, const std::vector<double>& yes, double sound) {
  Check check;
  check.work.cost = cost;
  for (const double chance : yes)
    check.likelihood.push_back({chance, 1 - chance});
  check.likelihood.push_back({sound, 1 - sound});
  return check;
}

}  // namespace soot::plan::test
