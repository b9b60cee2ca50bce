#include "core/infer/search.hpp"

#include "core/infer/pass.hpp"

#include <algorithm>
#include <cmath>

namespace soot::infer {

SearchTables::SearchTables(const Task& task, const std::vector<bool>& of_interest) : task_(task) {
  const std::size_t bits = task.reports.bits.size();
  std::vector<std::size_t> rest;
  for (const auto* list : {&task.partition.plain, &task.partition.idle})
    for (const std::size_t i : *list)
      (of_interest[i] ? plain_ : rest).push_back(i);
  const double top = *std::max_element(task.log_weight.begin(), task.log_weight.end());
  std::vector<double> present(task.instances.size(), 0.0);
  for (std::size_t h = 0; h < task.histories.size(); ++h) {
    weight_.push_back(std::exp(task.log_weight[h] - top));
    Pass pass(task, h);
    if (!pass.possible()) continue;
    pass.run_backward();
    const double share = std::exp(pass.log_evidence() - top);
    for (std::size_t i = 0; i < present.size(); ++i)
      present[i] += share * (1 - pass.grades()[i][0]);
  }
  std::stable_sort(plain_.begin(), plain_.end(),
                   [&](std::size_t a, std::size_t b) { return present[a] > present[b]; });
  for (std::size_t h = 0; h < task.histories.size(); ++h) {
    const Priors& priors = task.priors[h];
    Table after = closing_weights(task.reports);
    for (const std::size_t i : rest)
      fire_instance_adjoint(after, priors.grade[i], task.reports.touches[i]);
    std::vector<Table> tables(plain_.size() + 1, Table(bits));
    tables.back() = after;
    for (std::size_t p = plain_.size(); p-- > 0;) {
      fire_instance_adjoint(after, priors.grade[plain_[p]], task.reports.touches[plain_[p]]);
      tables[p] = after;
    }
    after_plain_.push_back(std::move(tables));
    std::vector<GroupPass> passes;
    for (const PreparedGroup& group : task.groups)
      passes.emplace_back(*task.network, task.instances, task.reports.touches, group, priors);
    std::vector<Pair> pairs(passes.size(), {Table(bits), Table(bits)});
    Pair behind{after, after};
    behind.calm.scale(task.no_fault);
    for (std::size_t g = passes.size(); g-- > 0;) {
      pairs[g] = behind;
      behind = join_adjoint(behind, passes[g].kernel({}), passes[g].group().bits);
    }
    passes_.push_back(std::move(passes));
    after_group_.push_back(std::move(pairs));
    total_ += weight_[h] * behind.calm[0];
  }
}

std::vector<Pair> SearchTables::start() const {
  std::vector<Pair> pairs;
  for (const double weight : weight_) {
    const std::size_t bits = task_.reports.bits.size();
    pairs.push_back({Table(bits), Table(bits)});
    pairs.back().calm[0] = weight;
  }
  return pairs;
}

Parts SearchTables::parts(std::size_t group, const std::vector<Pair>& before,
                          const Choices& choices) const {
  Parts sum;
  for (std::size_t h = 0; h < histories(); ++h) {
    const GroupPass& pass = passes_[h][group];
    Parts here =
        pass.parts(gradient_of(before[h], after_group_[h][group], pass.group().bits), choices);
    if (h == 0) {
      sum = std::move(here);
      continue;
    }
    for (std::size_t s = 0; s < sum.state.size(); ++s)
      sum.state[s] += here.state[s];
    for (std::size_t b = 0; b < sum.assignment.size(); ++b)
      for (std::size_t x = 0; x < sum.assignment[b].size(); ++x)
        sum.assignment[b][x] += here.assignment[b][x];
  }
  return sum;
}

std::vector<Pair> SearchTables::add_group(std::size_t group, const std::vector<Pair>& before,
                                          const Choices& choices) const {
  std::vector<Pair> after;
  for (std::size_t h = 0; h < histories(); ++h)
    after.push_back(
        join(before[h], passes_[h][group].kernel(choices), passes_[h][group].group().bits));
  return after;
}

std::vector<Table> SearchTables::close_groups(const std::vector<Pair>& before) const {
  std::vector<Table> tables;
  for (const Pair& pair : before) {
    tables.push_back(pair.calm);
    tables.back().scale(task_.no_fault);
    tables.back().add(pair.wrong);
  }
  return tables;
}

}  // namespace soot::infer
