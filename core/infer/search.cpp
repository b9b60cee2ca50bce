#include "core/infer/search.hpp"

#include <algorithm>
#include <cmath>

namespace soot::infer {

namespace {

/// A group's bits among all of them.
Weave among_all(const BitList& own, std::size_t bits) {
  Weave woven;
  for (std::size_t bit = 0; bit < bits; ++bit)
    woven.owner.push_back(std::binary_search(own.begin(), own.end(), bit) ? Owner::both
                                                                          : Owner::left);
  return woven;
}

std::vector<double> forward(const Join& join, const std::vector<double>& table,
                            const std::vector<double>& kernel) {
  std::vector<double> out(join.out_size());
  join.forward(out.data(), table.data(), kernel.data());
  return out;
}

std::vector<double> adjoint(const Join& join, const std::vector<double>& after,
                            const std::vector<double>& kernel) {
  std::vector<double> out(join.left_size());
  join.adjoint(out.data(), after.data(), kernel.data());
  return out;
}

void add_on(std::vector<double>& to, const std::vector<double>& more) {
  for (std::size_t i = 0; i < more.size(); ++i)
    to[i] += more[i];
}

Layers join_layers(const Join& join, const Layers& before, const Kernel& kernel) {
  Layers after{forward(join, before.calm, kernel.calm), forward(join, before.wrong, kernel.calm)};
  if (!kernel.wrong.empty()) add_on(after.wrong, forward(join, before.calm, kernel.wrong));
  return after;
}

/// Weights of the sets of fired bits at the end: reports and leaks.
std::vector<double> closing_weights(const Reports& reports) {
  std::vector<double> closing{1.0};
  for (const Bit& bit : reports.bits) {
    const std::size_t half = closing.size();
    for (std::size_t i = 0; i < half; ++i)
      closing.push_back(closing[i] * bit.fired);
    for (std::size_t i = 0; i < half; ++i)
      closing[i] *= bit.quiet;
  }
  return closing;
}

/// The adjoint of summing over an instance's grades.
void instance_back(std::vector<double>& after, const GradeRow& prior,
                   const std::vector<Touch>& touches) {
  std::vector<double> sum(after.size(), 0.0);
  for (std::size_t g = 0; g < prior.size(); ++g) {
    if (prior[g] == 0) continue;
    std::vector<double> fired = after;
    fire_touches_back(fired, touches, g);
    for (std::size_t i = 0; i < sum.size(); ++i)
      sum[i] += prior[g] * fired[i];
  }
  after = std::move(sum);
}

}  // namespace

void fire_touches(std::vector<double>& table, const std::vector<Touch>& touches,
                  std::size_t grade) {
  for (const Touch& touch : touches) {
    const double strength = touch.strength[grade];
    const std::size_t half = std::size_t{1} << touch.bit;
    for (std::size_t start = 0; strength > 0 && start < table.size(); start += 2 * half)
      for (std::size_t i = start; i < start + half; ++i) {
        table[i + half] += strength * table[i];
        table[i] *= 1 - strength;
      }
  }
}

void fire_touches_back(std::vector<double>& after, const std::vector<Touch>& touches,
                       std::size_t grade) {
  for (const Touch& touch : touches) {
    const double strength = touch.strength[grade];
    const std::size_t half = std::size_t{1} << touch.bit;
    for (std::size_t start = 0; strength > 0 && start < after.size(); start += 2 * half)
      for (std::size_t i = start; i < start + half; ++i)
        after[i] = (1 - strength) * after[i] + strength * after[i + half];
  }
}

SearchTables::SearchTables(const Task& task, const std::vector<bool>& of_interest) : task_(task) {
  const std::size_t bits = task.reports.bits.size();
  std::vector<std::size_t> rest;
  for (const auto* list : {&task.plan->partition.plain, &task.plan->partition.idle})
    for (const std::size_t i : *list)
      (of_interest[i] ? plain_ : rest).push_back(i);
  for (const Group& group : task.plan->partition.groups) {
    const Weave woven = among_all(group.bits, bits);
    joins_.emplace_back(woven, 1);
    back_.emplace_back(woven.turned(), 1);
  }
  const double top = *std::max_element(task.log_weight.begin(), task.log_weight.end());
  std::vector<double> present(task.instances.size(), 0.0);
  for (std::size_t h = 0; h < task.histories.size(); ++h) {
    weight_.push_back(std::exp(task.log_weight[h] - top));
    Pass pass(task, task.priors[h], task.log_weight[h]);
    passes_.push_back(pass.groups());
    if (!pass.possible()) continue;
    pass.run_backward(false);
    const double share = std::exp(pass.log_evidence() - top);
    for (std::size_t i = 0; i < present.size(); ++i)
      present[i] += share * (1 - pass.grades()[i][0]);
  }
  std::stable_sort(plain_.begin(), plain_.end(),
                   [&](std::size_t a, std::size_t b) { return present[a] > present[b]; });
  for (std::size_t h = 0; h < task.histories.size(); ++h) {
    const Priors& priors = task.priors[h];
    std::vector<double> after = after_all(priors, rest);
    std::vector<std::vector<double>> tables(plain_.size() + 1);
    tables.back() = after;
    for (std::size_t p = plain_.size(); p-- > 0;) {
      instance_back(after, priors.grade[plain_[p]], task.reports.touches[plain_[p]]);
      tables[p] = after;
    }
    after_plain_.push_back(std::move(tables));
    std::vector<Layers> layers(groups());
    Layers behind{after, after};
    for (double& one : behind.calm)
      one *= task.no_fault;
    for (std::size_t g = groups(); g-- > 0;) {
      layers[g] = behind;
      const Kernel kernel = passes_[h][g]->kernel({});
      behind.calm = adjoint(joins_[g], layers[g].calm, kernel.calm);
      if (!kernel.wrong.empty())
        add_on(behind.calm, adjoint(joins_[g], layers[g].wrong, kernel.wrong));
      behind.wrong = adjoint(joins_[g], layers[g].wrong, kernel.calm);
    }
    after_group_.push_back(std::move(layers));
    total_ += weight_[h] * behind.calm[0];
  }
}

std::vector<double> SearchTables::after_all(const Priors& priors,
                                            const std::vector<std::size_t>& rest) const {
  std::vector<double> after = closing_weights(task_.reports);
  for (const std::size_t i : rest)
    instance_back(after, priors.grade[i], task_.reports.touches[i]);
  return after;
}

std::vector<Layers> SearchTables::start() const {
  std::vector<Layers> layers;
  const std::size_t sets = std::size_t{1} << task_.reports.bits.size();
  for (const double weight : weight_) {
    layers.push_back({std::vector<double>(sets, 0.0), std::vector<double>(sets, 0.0)});
    layers.back().calm[0] = weight;
  }
  return layers;
}

Parts SearchTables::parts(std::size_t group, const std::vector<Layers>& before,
                          const Choices& choices) const {
  Parts sum;
  for (std::size_t h = 0; h < histories(); ++h) {
    const Layers& after = after_group_[h][group];
    Kernel gradient{adjoint(back_[group], after.calm, before[h].calm),
                    adjoint(back_[group], after.wrong, before[h].calm)};
    add_on(gradient.calm, adjoint(back_[group], after.wrong, before[h].wrong));
    Parts here = passes_[h][group]->parts(gradient, choices);
    if (h == 0) {
      sum = std::move(here);
      continue;
    }
    add_on(sum.state, here.state);
    for (std::size_t b = 0; b < sum.assignment.size(); ++b)
      add_on(sum.assignment[b], here.assignment[b]);
  }
  return sum;
}

std::vector<Layers> SearchTables::add_group(std::size_t group, const std::vector<Layers>& before,
                                            const Choices& choices) const {
  std::vector<Layers> after;
  for (std::size_t h = 0; h < histories(); ++h)
    after.push_back(join_layers(joins_[group], before[h], passes_[h][group]->kernel(choices)));
  return after;
}

std::vector<std::vector<double>> SearchTables::close_groups(
    const std::vector<Layers>& before) const {
  std::vector<std::vector<double>> tables;
  for (const Layers& layers : before) {
    tables.push_back(layers.calm);
    for (double& one : tables.back())
      one *= task_.no_fault;
    add_on(tables.back(), layers.wrong);
  }
  return tables;
}

}  // namespace soot::infer
