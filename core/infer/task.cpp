#include "core/infer/task.hpp"

#include <algorithm>
#include <cmath>

namespace soot::infer {

namespace {

double plain_work(const Task& task) {
  double work = 0;
  for (const std::size_t i : task.partition.plain)
    work += static_cast<double>(
        task.network->causes[task.instances[i].cause].grades * task.reports.touches[i].size() + 1);
  const double bits = static_cast<double>(task.reports.bits.size());
  work *= std::exp2(bits);
  for (const Group& group : task.partition.groups) {
    const double own = static_cast<double>(group.bits.size());
    work += 3 * std::pow(3.0, own) * std::exp2(bits - own);
  }
  return 3 * work * static_cast<double>(task.histories.size());
}

/// Causes with instances in groups last: their joint answer over the cylinders then passes over few
/// others on its way.
void order_plain(Task& task) {
  std::vector<bool> grouped(task.network->causes.size());
  for (const Group& group : task.partition.groups)
    for (const Block& block : group.blocks)
      for (const std::size_t i : block.instances)
        grouped[task.instances[i].cause] = true;
  std::stable_partition(task.partition.plain.begin(), task.partition.plain.end(),
                        [&](std::size_t i) { return !grouped[task.instances[i].cause]; });
}

}  // namespace

Result<Task> prepare(const Network& network, const Evidence& evidence, const Limits& limits) {
  Problems problems = faults_of(network);
  if (problems.empty()) problems = faults_of(network, evidence);
  if (!problems.empty()) return tl::unexpected(std::move(problems));

  Task task{&network, evidence, Instances(network), {}, {}, {}, {}, {}, {}, 1};
  task.reports = sort_reports(network, task.instances, evidence);
  if (task.reports.impossible) return task;
  for (std::size_t h = 0; h < network.histories.size(); ++h) {
    const double weight =
        evidence.history ? (*evidence.history == h ? 1 : 0) : network.history_prior[h];
    if (weight == 0) continue;
    Priors priors = absorb(network, task.instances, task.reports, h);
    if (!priors.possible) continue;
    task.histories.push_back(h);
    task.log_weight.push_back(std::log(weight) + priors.log_constant);
    task.priors.push_back(std::move(priors));
  }
  if (task.impossible()) return task;
  task.partition = partition(network, task.instances, evidence, task.reports.touches);
  order_plain(task);

  double budget = std::exp2(limits.log2_work);
  const double work = plain_work(task);
  if (work > budget)
    return fail(Kind::data,
                "too much work: {} findings that need explaining ask for about 2^{:.1f} steps (at "
                "most 2^{:.1f})",
                task.reports.bits.size(), std::log2(work), limits.log2_work);
  budget -= work;
  // A group has few regimes that matter at all: an even share for each of so many.
  constexpr double regimes_that_err = 32;
  const double tolerated =
      limits.relative_error / regimes_that_err /
      static_cast<double>(std::max<std::size_t>(1, task.partition.groups.size()));
  for (const Group& group : task.partition.groups) {
    auto prepared =
        prepare_group(network, task.instances, evidence, group, task.priors, tolerated, budget);
    if (!prepared) return pass_on(prepared);
    for (const std::size_t fault : group.faults)
      task.no_fault -= network.instrument_faults[fault].prior;
    task.groups.push_back(std::move(*prepared));
  }
  task.no_fault = std::max(task.no_fault, 0.0);
  return task;
}

}  // namespace soot::infer
