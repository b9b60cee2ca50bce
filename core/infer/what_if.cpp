// What an unmade look would change. "Looked, and absent" only changes priors: plans, nodes and
// likelihoods are used as they are. "Present" is what the evidence as it stands leaves over: with a
// chance P0 of "absent", relative error about 1e-16/(1 - P0), so it is asked as a finding of its
// own where 1 - P0 is tiny. Bands of one further reading share what they can (`Bands`). Everything
// else is asked anew.
#include "core/base/parallel.hpp"
#include "core/infer/bands.hpp"
#include "core/infer/sampling.hpp"
#include "core/infer/task.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

namespace soot::infer {

namespace {

/// Below this chance of "present", or below so many times what the tolerance may have given up, it
/// is not taken as a difference.
constexpr double least_left_over = 1e-6;
constexpr double error_bounds = 100;

/// Old minus the absent part, as a share of what is left over.
class LeftOver {
 public:
  explicit LeftOver(double absent) : absent_(absent) {}
  double of(double whole, double absent) const {
    return std::max(0.0, (whole - absent_ * absent) / (1 - absent_));
  }
  template <class Row>
  Row of(const Row& whole, const Row& absent) const {
    Row result(whole.size());
    for (std::size_t i = 0; i < whole.size(); ++i)
      result[i] = of(whole[i], absent[i]);
    return result;
  }

 private:
  double absent_;
};

class Looks {
 public:
  Looks(const Network& network, const Evidence& evidence, const Limits& limits, Task task)
      : network_(network),
        evidence_(evidence),
        limits_(limits),
        task_(std::move(task)),
        whole_(posterior_of(task_, limits.by_cause)) {}

  const Posterior& whole() const { return whole_; }

  /// The "absent" of every look among them, which both its outcomes are taken from.
  void prepare_looks(const std::vector<WhatIf>& additions) {
    std::vector<std::pair<const Finding*, Outcome*>> looks;
    for (const WhatIf& addition : additions) {
      if (!is_new_look(addition)) continue;
      const Finding& look = addition.findings.front();
      const auto [place, is_new] = absent_.try_emplace({look.symptom, look.cylinder});
      if (is_new) looks.emplace_back(&look, &place->second);
    }
    in_parallel(looks.size(),
                [&](std::size_t i) { *looks[i].second = absent_of(*looks[i].first); });
  }

  /// Of additions that `bands_of_one` puts together.
  std::vector<Result<Outcome>> outcomes(const std::vector<const WhatIf*>& additions) const {
    std::optional<Bands> bands;
    if (additions.size() > 1)
      bands = Bands::of(network_, evidence_, additions[0]->readings[0], limits_, task_);
    std::vector<Result<Outcome>> all;
    for (const WhatIf* addition : additions) {
      std::optional<Outcome> banded;
      if (bands)
        banded = bands->outcome(addition->readings[0].lower, addition->readings[0].upper,
                                whole_.log_evidence);
      all.push_back(banded ? Result<Outcome>(std::move(*banded)) : outcome(*addition));
    }
    return all;
  }

 private:
  /// Once `prepare_looks` had it.
  Result<Outcome> outcome(const WhatIf& addition) const {
    if (is_new_look(addition)) {
      const Finding& look = addition.findings.front();
      const Outcome& absent = absent_.at({look.symptom, look.cylinder});
      if (!look.present) return absent;
      const double least = std::max(least_left_over, error_bounds * whole_.error_bound);
      if (1 - absent.probability > least && !absent.posterior.impossible)
        return present_of(look, absent);
    }
    Evidence after = evidence_;
    after.findings.insert(after.findings.end(), addition.findings.begin(), addition.findings.end());
    after.readings.insert(after.readings.end(), addition.readings.begin(), addition.readings.end());
    if (const auto sound = check(network_, after); !sound) return pass_on(sound);
    const auto task =
        prepare(network_, after, limits_, addition.findings.empty() ? &task_ : nullptr);
    Posterior answer = task ? posterior_of(*task, limits_.by_cause)
                            : sampled_posterior(network_, after, task.error().front().text);
    const double probability = std::exp(answer.log_evidence - whole_.log_evidence);
    return Outcome{probability, std::move(answer)};
  }

  bool is_new_look(const WhatIf& addition) const {
    if (addition.findings.size() != 1 || !addition.readings.empty()) return false;
    const Finding& look = addition.findings.front();
    if (look.unsure || !faults_of(network_, {{}, {look}, {}}).empty()) return false;
    return std::none_of(
        evidence_.findings.begin(), evidence_.findings.end(), [&](const Finding& finding) {
          return finding.symptom == look.symptom && finding.cylinder == look.cylinder;
        });
  }

  Outcome absent_of(const Finding& look) const {
    const Symptom& symptom = network_.symptoms[look.symptom];
    const double quiet = (1 - symptom.leak) * (1 - symptom.imagined);
    std::vector<Priors> priors = task_.priors;
    std::vector<double> log_weight = task_.log_weight;
    for (std::size_t h = 0; h < priors.size(); ++h) {
      log_weight[h] += std::log(quiet);
      for (const Link& link : symptom.links) {
        const std::size_t first = task_.instances.first_of(link.cause);
        for (std::size_t i = first; i < first + task_.instances.count_of(link.cause); ++i) {
          if (!hears(look.cylinder, task_.instances[i])) continue;
          GradeRow& grade = priors[h].grade[i];
          double sum = grade[0];
          for (std::size_t g = 1; g < grade.size(); ++g)
            sum += grade[g] *= 1 - link.strength[g - 1] * (1 - symptom.missed);
          log_weight[h] += std::log(sum);
          for (double& one : grade)
            one = sum > 0 ? one / sum : 0;
        }
      }
    }
    Outcome outcome;
    outcome.posterior = posterior_of(task_, priors, log_weight, limits_.by_cause);
    outcome.probability =
        std::min(1.0, std::exp(outcome.posterior.log_evidence - whole_.log_evidence));
    outcome.posterior.not_listed.emplace_back();
    return outcome;
  }

  Outcome present_of(const Finding& look, const Outcome& absent) const {
    const LeftOver left(absent.probability);
    const Posterior& without = absent.posterior;
    Outcome outcome{1 - absent.probability, whole_};
    Posterior& present = outcome.posterior;
    present.log_evidence += std::log1p(-absent.probability);
    present.error_bound /= outcome.probability;
    present.history = left.of(whole_.history, without.history);
    for (std::size_t i = 0; i < present.instances.size(); ++i)
      present.instances[i].grade = left.of(whole_.instances[i].grade, without.instances[i].grade);
    present.any = left.of(whole_.any, without.any);
    present.none = left.of(whole_.none, without.none);
    present.instrument_wrong = left.of(whole_.instrument_wrong, without.instrument_wrong);
    for (std::size_t f = 0; f < whole_.not_listed.size(); ++f)
      if (whole_.not_listed[f])
        present.not_listed[f] = left.of(*whole_.not_listed[f], *without.not_listed[f]);
    // There, and no listed cause fired it: the leak, times what "absent" has without its own.
    const Symptom& symptom = network_.symptoms[look.symptom];
    const double silent = absent.probability / ((1 - symptom.leak) * (1 - symptom.imagined));
    present.not_listed.emplace_back(symptom.leak * silent / outcome.probability);
    return outcome;
  }

  const Network& network_;
  const Evidence& evidence_;
  const Limits& limits_;
  Task task_;
  Posterior whole_;
  std::map<std::pair<std::size_t, int>, Outcome> absent_;
};

/// The additions, those together that are one reading in several bands.
std::vector<std::vector<std::size_t>> bands_of_one(const std::vector<WhatIf>& additions) {
  using Key = std::tuple<std::size_t, int, double, double>;
  std::map<Key, std::size_t> known;
  std::vector<std::vector<std::size_t>> all;
  for (std::size_t i = 0; i < additions.size(); ++i) {
    const WhatIf& one = additions[i];
    if (one.findings.empty() && one.readings.size() == 1 && !one.readings[0].is_exact()) {
      const Reading& reading = one.readings[0];
      const auto [place, is_new] = known.try_emplace(
          Key{reading.quantity, reading.cylinder, reading.sd, reading.shift}, all.size());
      if (!is_new) {
        all[place->second].push_back(i);
        continue;
      }
    }
    all.push_back({i});
  }
  return all;
}

}  // namespace

Result<std::vector<Outcome>> what_ifs(const Network& network, const Evidence& evidence,
                                      const std::vector<WhatIf>& additions, const Limits& limits) {
  if (const auto sound = check(network, evidence); !sound) return pass_on(sound);
  auto task = prepare(network, evidence, limits);
  if (!task) return pass_on(task);
  Looks looks(network, evidence, limits, std::move(*task));
  if (looks.whole().impossible)
    return fail(Kind::data,
                "the evidence contradicts itself: the model gives it probability 0 (expected "
                "evidence that can occur)");
  looks.prepare_looks(additions);
  const std::vector<std::vector<std::size_t>> alike = bands_of_one(additions);
  // As many at once as there are processors, each with the memory of an answer.
  std::vector<Result<Outcome>> answers(additions.size());
  in_parallel(alike.size(), [&](std::size_t a) {
    std::vector<const WhatIf*> asked;
    for (const std::size_t i : alike[a])
      asked.push_back(&additions[i]);
    std::vector<Result<Outcome>> here = looks.outcomes(asked);
    for (std::size_t i = 0; i < here.size(); ++i)
      answers[alike[a][i]] = std::move(here[i]);
  });
  std::vector<Outcome> outcomes;
  for (Result<Outcome>& answer : answers) {
    if (!answer) return pass_on(answer);
    outcomes.push_back(std::move(*answer));
  }
  return outcomes;
}

}  // namespace soot::infer
