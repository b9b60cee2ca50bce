#include "core/plan/faults.hpp"

#include "core/plan/mending.hpp"
#include "core/plan/tables.hpp"

#include <algorithm>
#include <cmath>
#include <set>
#include <string>

namespace soot::plan {

namespace {

constexpr std::size_t most_faults = 20;
constexpr double row_slack = 1e-5;

std::string to_text(const CauseSet& causes) {
  return fmt::format("{{{}}}", fmt::join(causes, " "));
}

class Faults {
 public:
  explicit Faults(const Situation& situation) : situation_(situation) {}

  Problems find() {
    bits();
    if (!found_.empty()) return found_;  // the rest counts on sound bits
    hypotheses();
    for (std::size_t index = 0; index < situation_.checks.size(); ++index)
      check(fmt::format("check {}", index), situation_.checks[index]);
    for (std::size_t index = 0; index < situation_.corrections.size(); ++index)
      correction(fmt::format("correction {}", index), situation_.corrections[index]);
    work("run", situation_.run);
    cost("handing over", situation_.hand_over_cost);
    if (found_.empty()) sets_that_arise();
    return found_;
  }

 private:
  template <class... Args>
  void add(fmt::format_string<Args...> text, Args&&... args) {
    if (found_.size() < most_faults)
      found_.push_back(make_problem(Kind::data, text, std::forward<Args>(args)...));
  }

  void cost(const std::string& name, double value) {
    if (!std::isfinite(value) || value < 0)
      add("{} costs {} (expected a finite cost, not below 0)", name, value);
  }

  void bit_list(const std::string& name, const std::vector<std::size_t>& list) {
    for (const std::size_t bit : list)
      if (bit >= situation_.bits.size())
        add("{} names bit {} of {} (they count from 0)", name, bit, situation_.bits.size());
  }

  void bits() {
    const std::vector<Bit>& bits = situation_.bits;
    if (bits.size() > most_bits) add("{} bits (expected at most {})", bits.size(), most_bits);
    for (std::size_t index = 0; index < bits.size(); ++index) {
      const std::string name = fmt::format("bit {}", index);
      cost("setting " + name, bits[index].set_cost);
      cost("clearing " + name, bits[index].clear_cost);
      bit_list(name, bits[index].under);
    }
    bit_list("the list of bits on", situation_.bits_on);
    if (!found_.empty()) return;
    for (std::size_t index = 0; index < bits.size(); ++index)
      if (with_those_above(bits, bits[index].under)[index]) add("bit {} lies under itself", index);
    Configuration now;
    for (const std::size_t bit : situation_.bits_on)
      now.set(bit);
    if (with_those_above(bits, situation_.bits_on) != now)
      add("a bit is on and one that it lies under is off (expected both on)");
  }

  void hypotheses() {
    std::set<CauseSet> seen;
    double sum = 0;
    for (std::size_t index = 0; index < situation_.hypotheses.size(); ++index) {
      const Hypothesis& hypothesis = situation_.hypotheses[index];
      const CauseSet causes = ascending_once(index, hypothesis.causes);
      if (!seen.insert(causes).second)
        add("hypothesis {} holds the causes {} once more", index, to_text(causes));
      if (!(hypothesis.weight >= 0 && hypothesis.weight <= 1 + no_rest))
        add("hypothesis {} has weight {} (expected 0 to 1)", index, hypothesis.weight);
      sum += hypothesis.weight;
    }
    if (sum > 1 + no_rest) add("the weights sum to {} (expected at most 1)", sum);
    rest_weighs_ = sum < 1 - no_rest;
  }

  CauseSet ascending_once(std::size_t index, CauseSet causes) {
    std::sort(causes.begin(), causes.end());
    if (std::adjacent_find(causes.begin(), causes.end()) != causes.end())
      add("hypothesis {} names a cause twice: {}", index, to_text(causes));
    return causes;
  }

  void work(const std::string& name, const Work& work) {
    cost(name, work.cost);
    bit_list(name, work.on);
    bit_list(name, work.off);
    bit_list(name, work.undo);
    if (!found_.empty()) return;
    const Configuration on = with_those_above(situation_.bits, work.on);
    const Configuration off = with_those_below(situation_.bits, work.off);
    if ((on & off).any()) add("{} asks a bit both on and off", name);
  }

  void row(const std::string& name, const std::vector<double>& row, std::size_t outcomes) {
    if (row.size() != outcomes) add("{} has {} outcomes (expected {})", name, row.size(), outcomes);
    double sum = 0;
    for (const double chance : row) {
      if (!(chance >= 0 && chance <= 1 + row_slack))
        add("{} holds the chance {} (expected 0 to 1)", name, chance);
      sum += chance;
    }
    if (!(std::abs(sum - 1) <= row_slack)) add("{} sums to {} (expected 1)", name, sum);
  }

  void check(const std::string& name, const Check& check) {
    work(name, check.work);
    if (check.likelihood.size() != situation_.hypotheses.size()) {
      add("{} has {} rows (expected one for each of {} hypotheses)", name, check.likelihood.size(),
          situation_.hypotheses.size());
      return;
    }
    const std::size_t outcomes =
        check.likelihood.empty() ? check.rest.size() : check.likelihood.front().size();
    for (std::size_t index = 0; index < check.likelihood.size(); ++index)
      row(fmt::format("{}: row {}", name, index), check.likelihood[index], outcomes);
    if (!check.rest.empty())
      row(name + ": the row of something else", check.rest, outcomes);
    else if (rest_weighs_)
      add("{} has no row for something else, which has weight", name);
  }

  void correction(const std::string& name, const Correction& correction) {
    work(name, correction.work);
    std::set<std::size_t> seen;
    for (const Mend& mend : correction.mends) {
      if (!seen.insert(mend.cause).second) add("{} mends cause {} twice", name, mend.cause);
      if (!(mend.chance >= 0 && mend.chance <= 1))
        add("{} mends cause {} with chance {} (expected 0 to 1)", name, mend.cause, mend.chance);
    }
  }

  void sets_that_arise() {
    std::vector<CauseSet> sets;
    for (const Hypothesis& hypothesis : situation_.hypotheses)
      sets.push_back(hypothesis.causes);
    for (const CauseSet& causes : sets_left_by(situation_.corrections, sets))
      add("no hypothesis for the causes {}, which corrections can leave (expected it, weight 0)",
          to_text(causes));
  }

  const Situation& situation_;
  Problems found_;
  bool rest_weighs_ = false;
};

}  // namespace

Problems faults_of(const Situation& situation) {
  return Faults(situation).find();
}

}  // namespace soot::plan
