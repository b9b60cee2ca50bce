#include "core/infer/pass.hpp"

#include "core/infer/step_tables.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace soot::infer {

Pass::Pass(const Task& task, const Priors& priors, double log_weight)
    : task_(&task),
      priors_(&priors),
      log_weight_(log_weight),
      forest_(std::make_shared<ForestPass>(task.plan->forest, task.reports.touches, task.instances,
                                           priors)),
      kernels_(task.plan->groups.size()) {
  for (std::size_t g = 0; g < kernels_.size(); ++g)
    groups_.push_back(pass_of(g, nullptr));
  forward();
}

Pass::Pass(const Pass& open, std::size_t group, const Nodes::Numbers& banded)
    : task_(open.task_),
      priors_(open.priors_),
      log_weight_(open.log_weight_),
      forest_(open.forest_),
      groups_(open.groups_),
      kernels_(open.kernels_) {
  groups_[group] = pass_of(group, &banded);
  forward();
}

/// Its kernel is put among the others.
std::shared_ptr<const GroupPass> Pass::pass_of(std::size_t group, const Nodes::Numbers* banded) {
  auto pass = std::make_shared<GroupPass>(*task_->network, task_->instances, task_->reports.touches,
                                          *task_->plan->groups[group], *priors_, banded);
  kernels_[group] = pass->kernel();
  return pass;
}

Kernel Pass::kernel_of(const Item& item) const {
  if (item.is_group) return kernels_[item.index];
  const double* kernel = forest_->kernel(item.index);
  return {{kernel, kernel + task_->plan->forest.units[item.index].sets()}, {}};
}

Layers Pass::turn(const Step& step, const Layers& table) const {
  return {turn_table(step, table.calm), turn_table(step, table.wrong)};
}

/// A wrong instrument of this group joins only tables that have none so far.
Layers Pass::joined(const Step& step, const Layers& table, const Kernel& kernel) const {
  Layers out{join_table(step, table.calm, kernel.calm), join_table(step, table.wrong, kernel.calm)};
  if (!kernel.wrong.empty()) add_table(out.wrong, join_table(step, table.calm, kernel.wrong));
  return out;
}

Layers Pass::closed(const Closing& closing, const Layers& table) const {
  const Bit& bit = task_->reports.bits[closing.bit];
  Layers out{fold_bit(table.calm, closing.place, bit), {}};
  if (!table.wrong.empty()) out.wrong = fold_bit(table.wrong, closing.place, bit);
  return out;
}

Layers Pass::after_groups(const Layers& table) const {
  Layers out{table.calm, {}};
  for (double& one : out.calm)
    one *= task_->no_fault;
  if (!table.wrong.empty()) add_table(out.calm, table.wrong);
  return out;
}

void Pass::forward() {
  const Chain& chain = task_->plan->chain;
  kept_.resize(chain.steps.size());
  log_evidence_ = log_weight_;
  for (const auto& prepared : task_->plan->groups)
    log_evidence_ += prepared->nodes.log_scale;
  Layers table{{1.0}, {}};
  if (chain.groups == 0) table = after_groups(table);
  for (std::size_t s = 0; s < chain.steps.size(); ++s) {
    const Step& step = chain.steps[s];
    Kept& kept = kept_[s];
    kept.in = turn(step, table);
    kept.stages.push_back(joined(step, kept.in, kernel_of(step.item)));
    for (const Closing& closing : step.closings)
      kept.stages.push_back(closed(closing, kept.stages.back()));
    table = kept.stages.back();
    if (s + 1 == chain.groups) table = after_groups(table);
    kept.scale = std::max(greatest(table.calm.data(), table.calm.size()),
                          greatest(table.wrong.data(), table.wrong.size()));
    if (!(kept.scale > 0)) {
      log_evidence_ = -std::numeric_limits<double>::infinity();
      return;
    }
    for (auto* layer : {&table.calm, &table.wrong})
      for (double& one : *layer)
        one /= kept.scale;
    log_evidence_ += std::log(kept.scale);
  }
  evidence_ = table.calm[0];
  log_evidence_ += std::log(evidence_);
  for (const std::size_t bit : chain.lonely) {
    const double quiet = task_->reports.bits[bit].quiet;
    log_evidence_ += std::log(quiet);
    if (quiet == 0) evidence_ = 0;
  }
}

/// Takes the closings back, from the last; notes what nothing listed explains.
void Pass::open_again(std::size_t s, Layers& after) {
  const Step& step = task_->plan->chain.steps[s];
  for (std::size_t c = step.closings.size(); c-- > 0;) {
    const Closing& closing = step.closings[c];
    const Bit& bit = task_->reports.bits[closing.bit];
    const Layers& before = kept_[s].stages[c];
    not_listed_[closing.bit] = (quiet_part(before.calm, after.calm, closing.place, bit) +
                                quiet_part(before.wrong, after.wrong, closing.place, bit)) /
                               evidence_;
    after.calm = unfold_bit(after.calm, closing.place, bit);
    if (!after.wrong.empty()) after.wrong = unfold_bit(after.wrong, closing.place, bit);
  }
}

void Pass::hand_out(const Item& item, const Kernel& gradient) {
  if (!item.is_group) {
    forest_->back(item.index, gradient.calm.data(), grades_);
    return;
  }
  const GroupPass& pass = *groups_[item.index];
  const PreparedGroup& prepared = pass.prepared();
  const Group& group = prepared.group;
  const std::vector<std::size_t> within =
      spreads_.empty() ? std::vector<std::size_t>{} : causes_within(group);
  const Parts parts = pass.parts(gradient, within);
  for (std::size_t c = 0; c < within.size(); ++c)
    spreads_[within[c]] = parts.spread[c];
  for (std::size_t s = 0; s < parts.state.size(); ++s) {
    const CommonState& state = prepared.states[s];
    for (std::size_t c = 0; c < state.grades.size(); ++c)
      grades_[group.commons[c]][state.grades[c]] += parts.state[s];
    if (state.fault) faults_[group.faults[*state.fault]] += parts.state[s];
  }
  for (std::size_t b = 0; b < group.blocks.size(); ++b) {
    const std::vector<std::size_t>& own = group.blocks[b].instances;
    std::size_t step = 1;
    for (std::size_t i = own.size(); i-- > 0;) {
      GradeRow& grades = grades_[own[i]];
      for (std::size_t x = 0; x < parts.assignment[b].size(); ++x)
        grades[x / step % grades.size()] += parts.assignment[b][x];
      step *= grades.size();
    }
  }
}

std::vector<std::size_t> Pass::causes_within(const Group& group) const {
  std::vector<std::size_t> found(task_->network->causes.size());
  for (const Block& block : group.blocks)
    for (const std::size_t i : block.instances)
      ++found[task_->instances[i].cause];
  for (const std::size_t idle : task_->plan->partition.idle)
    if (found[task_->instances[idle].cause] > 0) ++found[task_->instances[idle].cause];
  std::vector<std::size_t> causes;
  for (std::size_t cause = 0; cause < found.size(); ++cause)
    if (found[cause] > 1 && found[cause] == task_->instances.count_of(cause))
      causes.push_back(cause);
  return causes;
}

void Pass::step_back(std::size_t s, Layers after) {
  const Step& step = task_->plan->chain.steps[s];
  Kept& kept = kept_[s];
  for (auto* layer : {&after.calm, &after.wrong})
    for (double& one : *layer)
      one /= kept.scale;
  if (s + 1 == task_->plan->chain.groups) {
    if (!kept.stages.back().wrong.empty()) after.wrong = after.calm;
    for (double& one : after.calm)
      one *= task_->no_fault;
  }
  if (kept.stages.back().wrong.empty()) after.wrong.clear();
  kept.after = after;
  open_again(s, after);
  const Kernel kernel = kernel_of(step.item);
  Kernel& gradient = gradients_[s];
  gradient.calm = kernel_gradient(step, after.calm, kept.in.calm);
  add_table(gradient.calm, kernel_gradient(step, after.wrong, kept.in.wrong));
  if (!kernel.wrong.empty()) gradient.wrong = kernel_gradient(step, after.wrong, kept.in.calm);
  hand_out(step.item, gradient);
  if (s == 0) return;
  Layers before{table_gradient(step, after.calm, kernel.calm), {}};
  if (!kernel.wrong.empty())
    add_table(before.calm, table_gradient(step, after.wrong, kernel.wrong));
  if (!kept.in.wrong.empty()) before.wrong = table_gradient(step, after.wrong, kernel.calm);
  before.calm = turn_table_back(step, before.calm);
  before.wrong = turn_table_back(step, before.wrong);
  step_back(s - 1, std::move(before));
}

void Pass::run_backward(bool by_cause) {
  const Chain& chain = task_->plan->chain;
  spreads_.assign(by_cause ? task_->network->causes.size() : 0, {});
  for (std::size_t i = 0; i < task_->instances.size(); ++i)
    grades_.emplace_back(priors_->grade[i].size(), 0.0);
  faults_.assign(task_->network->instrument_faults.size(), 0.0);
  not_listed_.assign(task_->reports.bits.size(), 0.0);
  gradients_.resize(chain.steps.size());
  if (!chain.steps.empty()) step_back(chain.steps.size() - 1, {{1.0}, {}});
  for (auto& row : grades_)
    for (double& one : row)
      one /= evidence_;
  for (double& one : faults_)
    one /= evidence_;
  for (const std::size_t idle : task_->plan->partition.idle)
    grades_[idle] = priors_->grade[idle];
  for (const std::size_t bit : chain.lonely) {
    const Bit& here = task_->reports.bits[bit];
    if (here.leak_only > 0) not_listed_[bit] = here.leak_only / here.quiet;
  }
}

bool Pass::has_item(const Item& item, std::size_t cause) const {
  return item.is_group ? groups_[item.index]->has(cause)
                       : task_->plan->forest.units[item.index].has(cause);
}

Spread Pass::over_cylinders(std::size_t cause) const {
  // The tables are carried twice, for "every instance of the cause sound so far" and "some
  // present", from its first item to its last, and met with the kept gradients there. All parts are
  // positive: 1 - P(none) would lose the rare ones.
  const Chain& chain = task_->plan->chain;
  Spread spread{0, 1};
  std::size_t first = chain.steps.size(), last = 0;
  for (std::size_t s = 0; s < chain.steps.size(); ++s)
    if (has_item(chain.steps[s].item, cause)) {
      first = std::min(first, s);
      last = s;
    }
  const auto parted = [&](const Item& item) -> std::pair<Kernel, Kernel> {
    if (item.is_group) return groups_[item.index]->parted_kernel(cause);
    auto [none, any] = forest_->parted(item.index, cause);
    return {Kernel{std::move(none), {}}, Kernel{std::move(any), {}}};
  };
  if (first == last && first < chain.steps.size()) {
    const Item& item = chain.steps[first].item;
    if (item.is_group) {
      spread = spreads_[cause];
    } else {
      const auto [none, any] = forest_->parted(item.index, cause);
      spread.none = table_product(none, gradients_[first].calm);
      spread.any = table_product(any, gradients_[first].calm);
    }
    spread.none /= evidence_;
    spread.any /= evidence_;
  } else if (first < last) {
    Layers none = kept_[first].in, any;
    any.calm.assign(none.calm.size(), 0.0);
    any.wrong.assign(none.wrong.size(), 0.0);
    for (std::size_t s = first; s <= last; ++s) {
      const Step& step = chain.steps[s];
      if (s > first) {
        none = turn(step, none);
        any = turn(step, any);
      }
      const bool here = has_item(step.item, cause);
      const Kernel all = kernel_of(step.item);
      any = joined(step, any, all);
      if (here) {
        const auto [without, with] = parted(step.item);
        const Layers newly = joined(step, none, with);
        add_table(any.calm, newly.calm);
        if (!newly.wrong.empty()) add_table(any.wrong, newly.wrong);
        none = joined(step, none, without);
      } else {
        none = joined(step, none, all);
      }
      for (const Closing& closing : step.closings) {
        none = closed(closing, none);
        any = closed(closing, any);
      }
      if (s == last) break;
      if (s + 1 == chain.groups) {
        none = after_groups(none);
        any = after_groups(any);
      }
      for (auto* layer : {&none.calm, &none.wrong, &any.calm, &any.wrong})
        for (double& one : *layer)
          one /= kept_[s].scale;
    }
    const Layers& after = kept_[last].after;
    spread.none =
        (table_product(none.calm, after.calm) + table_product(none.wrong, after.wrong)) / evidence_;
    spread.any =
        (table_product(any.calm, after.calm) + table_product(any.wrong, after.wrong)) / evidence_;
  }
  // Idle instances know of no evidence: given the history they stand apart.
  const std::size_t begin = task_->instances.first_of(cause);
  for (std::size_t i = begin; i < begin + task_->instances.count_of(cause); ++i) {
    if (!task_->plan->is_idle[i]) continue;
    double here = 0;
    for (std::size_t g = 1; g < priors_->grade[i].size(); ++g)
      here += priors_->grade[i][g];
    spread.any += spread.none * here;
    spread.none *= priors_->grade[i][0];
  }
  return spread;
}

}  // namespace soot::infer
