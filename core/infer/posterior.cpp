#include "core/base/parallel.hpp"
#include "core/infer/pass.hpp"
#include "core/infer/sampling.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace soot::infer {

namespace {

constexpr double impossible_log = -std::numeric_limits<double>::infinity();

/// One a cause, those with several instances.
std::vector<Spread> spreads(const Task& task, const Pass& pass, std::size_t causes) {
  std::vector<Spread> all(causes);
  std::vector<std::size_t> several;
  for (std::size_t cause = 0; cause < causes; ++cause)
    if (task.instances.count_of(cause) > 1) several.push_back(cause);
  in_parallel(several.size(),
              [&](std::size_t i) { all[several[i]] = pass.over_cylinders(several[i]); });
  return all;
}

/// One history's answer, in itself.
void fill(Posterior& answer, const Task& task, Pass& pass, bool by_cause) {
  pass.run_backward(by_cause);
  for (std::size_t i = 0; i < task.instances.size(); ++i)
    answer.instances[i].grade = pass.grades()[i];
  answer.instrument_wrong = pass.faults();
  if (by_cause) {
    const std::vector<Spread> all = spreads(task, pass, answer.any.size());
    for (std::size_t cause = 0; cause < all.size(); ++cause) {
      answer.any[cause] = all[cause].any;
      answer.none[cause] = all[cause].none;
    }
  }
  for (std::size_t f = 0; f < answer.not_listed.size(); ++f)
    if (answer.not_listed[f] && task.reports.bit_of[f])
      answer.not_listed[f] = pass.not_listed(*task.reports.bit_of[f]);
}

template <class Row>
void add(Row& to, const Row& more, double weight) {
  for (std::size_t i = 0; i < to.size(); ++i)
    to[i] += weight * more[i];
}

void mix(Posterior& answer, const Posterior& part, double weight) {
  for (std::size_t i = 0; i < answer.instances.size(); ++i)
    add(answer.instances[i].grade, part.instances[i].grade, weight);
  add(answer.instrument_wrong, part.instrument_wrong, weight);
  add(answer.any, part.any, weight);
  add(answer.none, part.none, weight);
  for (std::size_t f = 0; f < answer.not_listed.size(); ++f)
    if (answer.not_listed[f]) *answer.not_listed[f] += weight * *part.not_listed[f];
}

Posterior empty_answer(const Task& task) {
  Posterior answer;
  const Network& network = *task.network;
  answer.instances.reserve(task.instances.size());
  answer.history.assign(network.histories.size(), 0.0);
  for (std::size_t i = 0; i < task.instances.size(); ++i) {
    const InstanceKey key = task.instances[i];
    answer.instances.push_back(
        {key.cause, key.cylinder, GradeRow(network.causes[key.cause].grades + 1, 0.0)});
  }
  answer.any.assign(network.causes.size(), 0.0);
  answer.none.assign(network.causes.size(), 0.0);
  answer.instrument_wrong.assign(network.instrument_faults.size(), 0.0);
  for (const Finding& finding : task.evidence.findings)
    answer.not_listed.push_back(finding.present ? std::optional<double>(0) : std::nullopt);
  for (const auto& group : task.plan->groups)
    answer.error_bound += group->error;
  return answer;
}

}  // namespace

double Instance::present() const {
  GradeRow above(grade.begin() + 1, grade.end());
  // All of it: g++ 12 takes what std::sort does with more than sixteen numbers for a fault here.
  std::partial_sort(above.begin(), above.end(), above.end());
  double sum = 0;
  for (const double one : above)
    sum += one;
  return sum;
}

double log_evidence_of(const Task& task) {
  if (task.impossible()) return impossible_log;
  std::vector<double> logs;
  for (std::size_t h = 0; h < task.histories.size(); ++h)
    logs.push_back(Pass(task, task.priors[h], task.log_weight[h]).log_evidence());
  const double top = *std::max_element(logs.begin(), logs.end());
  if (top == impossible_log) return impossible_log;
  double sum = 0;
  for (const double one : logs)
    sum += std::exp(one - top);
  return top + std::log(sum);
}

Posterior posterior_of(const Task& task, bool by_cause) {
  return posterior_of(task, task.priors, task.log_weight, by_cause);
}

Posterior posterior_of(const Task& task, const std::vector<Priors>& priors,
                       const std::vector<double>& log_weight, bool by_cause) {
  const auto pass_of = [&](std::size_t h) { return Pass(task, priors[h], log_weight[h]); };
  return mixed_posterior(task, pass_of, by_cause);
}

Posterior mixed_posterior(const Task& task, const std::function<Pass(std::size_t h)>& pass_of,
                          bool by_cause) {
  Posterior impossible;
  impossible.impossible = true;
  impossible.log_evidence = impossible_log;
  if (task.impossible()) return impossible;
  std::vector<Posterior> parts(task.histories.size());
  std::vector<double> logs(task.histories.size());
  in_parallel(task.histories.size(), [&](std::size_t h) {
    Pass pass = pass_of(h);
    logs[h] = pass.log_evidence();
    parts[h] = empty_answer(task);
    if (pass.possible()) fill(parts[h], task, pass, by_cause);
  });
  const double top = *std::max_element(logs.begin(), logs.end());
  if (top == impossible_log) return impossible;
  double sum = 0;
  for (const double one : logs)
    sum += std::exp(one - top);
  const bool is_known = parts.size() == 1;
  Posterior answer = is_known ? std::move(parts[0]) : empty_answer(task);
  answer.log_evidence = top + std::log(sum);
  for (std::size_t h = 0; h < parts.size(); ++h) {
    const double weight = std::exp(logs[h] - top) / sum;
    answer.history[task.histories[h]] = weight;
    if (!is_known) mix(answer, parts[h], weight);
  }
  for (std::size_t cause = 0; cause < answer.any.size(); ++cause) {
    if (task.instances.count_of(cause) != 1) continue;
    const Instance& only = answer.instances[task.instances.first_of(cause)];
    answer.any[cause] = only.present();
    answer.none[cause] = only.grade[0];
  }
  return answer;
}

Result<Posterior> posterior(const Network& network, const Evidence& evidence,
                            const Limits& limits) {
  if (const auto sound = check(network, evidence); !sound) return pass_on(sound);
  const auto task = prepare(network, evidence, limits);
  if (!task) return sampled_posterior(network, evidence, task.error().front().text);
  return posterior_of(*task, limits.by_cause);
}

}  // namespace soot::infer
