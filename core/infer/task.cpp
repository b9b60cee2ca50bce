#include "core/infer/task.hpp"

#include "core/infer/repeats.hpp"

#include <algorithm>
#include <cmath>

namespace soot::infer {

namespace {

/// Sets of bits are kept in 64 bits; so many open findings are beyond any exact answer anyway.
constexpr std::size_t most_bits = 64;
/// Numbers that the tables of all histories may take together: 128 MB.
constexpr double most_memory = 1 << 24;

/// A group has few regimes that come near the tolerance: an even share for each of so many.
constexpr double regimes_that_err = 64;

std::vector<Item> group_items(const Partition& partition) {
  std::vector<Item> items;
  for (std::size_t g = 0; g < partition.groups.size(); ++g)
    items.push_back({true, g, partition.groups[g].bits});
  return items;
}

Result<void> plan_chain(const Task& task, Plan& plan, double& budget) {
  const std::size_t bits = task.reports.bits.size();
  if (bits > most_bits)
    return fail(Kind::data, "too much work: {} findings that need explaining (at most {})", bits,
                most_bits);
  plan.forest = grow_forest(task.instances, plan.partition.plain, task.reports.touches);
  plan.chain = order_chain(group_items(plan.partition), plan.forest, bits);
  const double histories = static_cast<double>(task.histories.size());
  const double work = (plan.chain.work + plan.forest.work) * histories;
  const double memory = (plan.chain.memory + static_cast<double>(plan.forest.pool)) * histories;
  if (work > budget || memory > most_memory)
    return fail(Kind::data,
                "too much work: {} findings that need explaining ask for tables of {} of them at "
                "once, about 2^{:.1f} steps (at most 2^{:.1f})",
                bits, plan.chain.width, std::log2(std::max(work, 1.0)), std::log2(budget));
  budget -= work;
  return {};
}

bool same_block(const Block& a, const Evidence& of_a, const Block& b, const Evidence& of_b) {
  return a.instances == b.instances && a.bits == b.bits &&
         std::equal(
             a.readings.begin(), a.readings.end(), b.readings.begin(), b.readings.end(),
             [&](std::size_t r, std::size_t s) { return of_a.readings[r] == of_b.readings[s]; });
}

/// The group as it was prepared there, if it has the same causes and readings.
std::shared_ptr<const PreparedGroup> same_group(const Task& before, const Task& task,
                                                const Group& group) {
  if (before.impossible() || before.tolerance != task.tolerance) return nullptr;
  const std::vector<Group>& groups = before.plan->partition.groups;
  const auto same = std::find_if(groups.begin(), groups.end(), [&](const Group& one) {
    return one.commons == group.commons && one.faults == group.faults && one.bits == group.bits &&
           std::equal(one.blocks.begin(), one.blocks.end(), group.blocks.begin(),
                      group.blocks.end(), [&](const Block& a, const Block& b) {
                        return same_block(a, before.evidence, b, task.evidence);
                      });
  });
  if (same == groups.end()) return nullptr;
  return before.plan->groups[static_cast<std::size_t>(same - groups.begin())];
}

Result<Task> prepare_within(const Network& network, const Evidence& evidence, const Limits& limits,
                            const Task* before) {
  Task task{&network, {}, Instances(network), {}, 0, {}, {}, {}, nullptr, limits.tolerance, 1};
  task.evidence = merge_repeats(evidence, task.log_constant);
  task.reports = sort_reports(network, task.instances, evidence);
  if (task.reports.impossible) return task;
  for (std::size_t h = 0; h < network.histories.size(); ++h) {
    const double weight =
        evidence.history ? (*evidence.history == h ? 1 : 0) : network.history_prior[h];
    if (weight == 0) continue;
    Priors priors = absorb(network, task.instances, task.reports, h);
    if (!priors.possible) continue;
    task.histories.push_back(h);
    task.log_weight.push_back(std::log(weight) + priors.log_constant + task.log_constant);
    task.priors.push_back(std::move(priors));
  }
  if (task.impossible()) return task;
  Plan plan;
  plan.partition = partition(network, task.instances, task.evidence, task.reports.touches);
  plan.is_idle.assign(task.instances.size(), false);
  for (const std::size_t idle : plan.partition.idle)
    plan.is_idle[idle] = true;

  double budget = std::exp2(limits.log2_work);
  if (const auto planned = plan_chain(task, plan, budget); !planned) return pass_on(planned);
  for (const Group& group : plan.partition.groups) {
    for (const std::size_t fault : group.faults)
      task.no_fault -= network.instrument_faults[fault].prior;
    if (before != nullptr)
      if (auto same = same_group(*before, task, group)) {
        plan.groups.push_back(std::move(same));
        continue;
      }
    auto prepared =
        prepare_group(network, task.instances, task.evidence, group, task.reports.touches,
                      task.priors, limits.tolerance / regimes_that_err, budget);
    if (!prepared) return pass_on(prepared);
    plan.groups.push_back(std::make_shared<const PreparedGroup>(std::move(*prepared)));
  }
  task.plan = std::make_shared<const Plan>(std::move(plan));
  task.no_fault = std::max(task.no_fault, 0.0);
  return task;
}

}  // namespace

Result<void> check(const Network& network, const Evidence& evidence) {
  Problems problems = faults_of(network);
  if (problems.empty()) problems = faults_of(network, evidence);
  if (!problems.empty()) return tl::unexpected(std::move(problems));
  return {};
}

Result<Task> prepare(const Network& network, const Evidence& evidence, const Limits& limits,
                     const Task* before) {
  auto task = prepare_within(network, evidence, limits, before);
  if (task) return task;
  // A bound on a little more given up is better than an estimate.
  constexpr double least_tolerance = 1e-12;
  Limits coarser = limits;
  coarser.tolerance = std::max(least_tolerance, 100 * limits.tolerance);
  auto again = prepare_within(network, evidence, coarser, before);
  return again ? std::move(again) : std::move(task);
}

}  // namespace soot::infer
