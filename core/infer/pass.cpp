#include "core/infer/pass.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace soot::infer {

Pass::Pass(const Task& task, std::size_t history)
    : task_(task), priors_(task.priors[history]), closing_(closing_weights(task.reports)) {
  const std::size_t bits = task.reports.bits.size();
  identity_.resize(bits);
  std::iota(identity_.begin(), identity_.end(), std::size_t{0});
  const auto& plain = task.partition.plain;
  Table table(bits);
  table[0] = 1;
  for (std::size_t at = 0; at < plain.size();) {
    Unit unit{at, 0};
    const std::size_t cause = task.instances[plain[at]].cause;
    before_unit_.push_back(table);
    for (; at < plain.size() && task.instances[plain[at]].cause == cause; ++at, ++unit.count)
      fire_instance(table, priors_.grade[plain[at]], task.reports.touches[plain[at]]);
    units_.push_back(unit);
  }
  before_unit_.push_back(table);
  before_group_.push_back({std::move(table), Table(bits)});
  double log_scale = 0;
  for (const PreparedGroup& prepared : task.groups) {
    groups_.emplace_back(*task.network, task.instances, task.reports.touches, prepared, priors_);
    kernels_.push_back(groups_.back().kernel({}));
    before_group_.push_back(join(before_group_.back(), kernels_.back(), prepared.group.bits));
    log_scale += prepared.log_scale;
  }
  const Pair& last = before_group_.back();
  evidence_ = task.no_fault * dot(last.calm, closing_) + dot(last.wrong, closing_);
  log_evidence_ = task.log_weight[history] + log_scale + std::log(evidence_);
}

void Pass::backward_group(std::size_t g) {
  const BitList& bits = groups_[g].group().bits;
  groups_[g].backward(gradient_of(before_group_[g], after_group_[g], bits), numerators_);
  if (g > 0) after_group_[g - 1] = join_adjoint(after_group_[g], kernels_[g], bits);
}

void Pass::backward_unit(std::size_t u) {
  const Unit unit = units_[u];
  const auto member = [&](std::size_t i) { return task_.partition.plain[unit.first + i]; };
  std::vector<Table> after(unit.count, Table(0));
  Table adjoint = after_unit_[u];
  for (std::size_t i = unit.count; i-- > 0;) {
    after[i] = adjoint;
    fire_instance_adjoint(adjoint, priors_.grade[member(i)], task_.reports.touches[member(i)]);
  }
  if (u > 0) after_unit_[u - 1] = std::move(adjoint);
  Table before = before_unit_[u];
  for (std::size_t i = 0; i < unit.count; ++i) {
    const std::vector<double>& prior = priors_.grade[member(i)];
    Table sum(before.bits());
    for (std::size_t g = 0; g < prior.size(); ++g) {
      if (prior[g] == 0) continue;
      Table fired = before;
      fired.scale(prior[g]);
      fire(fired, task_.reports.touches[member(i)], g, identity_);
      numerators_.grade[member(i)][g] = dot(fired, after[i]);
      sum.add(fired);
    }
    before = std::move(sum);
  }
}

void Pass::run_backward() {
  const std::size_t bits = closing_.bits();
  for (std::size_t i = 0; i < task_.instances.size(); ++i)
    numerators_.grade.emplace_back(priors_.grade[i].size(), 0.0);
  numerators_.fault.assign(task_.network->instrument_faults.size(), 0.0);
  Pair closing{closing_, closing_};
  closing.calm.scale(task_.no_fault);
  Table last = closing.calm;
  if (!groups_.empty()) {
    after_group_.assign(groups_.size(), {Table(bits), Table(bits)});
    after_group_.back() = std::move(closing);
    for (std::size_t g = groups_.size(); g-- > 0;)
      backward_group(g);
    last = join_adjoint(after_group_[0], kernels_[0], groups_[0].group().bits).calm;
  }
  if (!units_.empty()) {
    after_unit_.assign(units_.size(), Table(0));
    after_unit_.back() = std::move(last);
    for (std::size_t u = units_.size(); u-- > 0;)
      backward_unit(u);
  }
  for (auto& row : numerators_.grade)
    for (double& one : row)
      one /= evidence_;
  for (double& one : numerators_.fault)
    one /= evidence_;
  for (const std::size_t idle : task_.partition.idle)
    numerators_.grade[idle] = priors_.grade[idle];
}

double Pass::not_listed(std::size_t bit) const {
  const Bit& here = task_.reports.bits[bit];
  if (here.leak_only == 0) return 0;
  const Pair& last = before_group_.back();
  double quiet = 0;
  for (std::size_t set = 0; set < closing_.sets(); ++set)
    if (!(set >> bit & 1))
      quiet += (task_.no_fault * last.calm[set] + last.wrong[set]) * closing_[set];
  return quiet / evidence_ * (here.leak_only / here.quiet);
}

}  // namespace soot::infer
