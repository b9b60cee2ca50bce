// The k most probable explanations, best first over beginnings: take the beginning with the
// greatest mass, extend it by one step, put all extensions back. The mass of a beginning is that of
// all its completions, so the first k complete ones to come up are exactly the k best. A step is:
// the engine-wide grades of a group; the joint grades of one of its blocks; one plain cause.
#include "core/infer/sampling.hpp"
#include "core/infer/search.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <memory>
#include <queue>

namespace soot::infer {

namespace {

/// Where the groups of a beginning have come to, shared by all its extensions.
struct Root {
  std::vector<Layers> layers;               ///< before the next group
  std::vector<std::vector<double>> closed;  ///< after all groups
};

struct Beginning {
  double mass = 0;
  std::size_t number = 0;  ///< in order of making: equal masses are taken in this order
  std::shared_ptr<const Root> root;
  std::size_t group = 0;  ///< the group it stands in
  std::size_t step = 0;   ///< in a group: 0 the commons, then the blocks; after: plain instances
  Choices in_group;       ///< of that group
  Choices all;            ///< present ones of everything before
  std::vector<double> prior;  ///< one a history: of the plain choices
  std::vector<double> quiet;  ///< one a bit: P(the plain choices left it unexplained)
};

struct Lighter {
  bool operator()(const Beginning& a, const Beginning& b) const {
    return a.mass != b.mass ? a.mass < b.mass : a.number > b.number;
  }
};

class Search {
 public:
  Search(const SearchTables& tables, const std::vector<bool>& of_interest, double budget)
      : tables_(tables), task_(tables.task()), of_interest_(of_interest), budget_(budget) {
    Beginning first;
    first.mass = tables.total();
    first.root = make_root(tables.start());
    first.prior.assign(tables.histories(), 1.0);
    first.quiet.assign(task_.reports.bits.size(), 1.0);
    queue_.push(std::move(first));
  }

  Result<std::vector<Explanation>> best(std::size_t count) {
    std::vector<Explanation> found;
    while (found.size() < count && !queue_.empty()) {
      Beginning top = queue_.top();
      queue_.pop();
      if (top.group < tables_.groups()) {
        extend_group(std::move(top));
      } else if (top.step < tables_.plain().size()) {
        extend_plain(top);
      } else {
        found.push_back(complete(top));
      }
      if (budget_ < 0)
        return fail(Kind::data,
                    "too much work: {} explanations ask for more steps than allowed (fewer of "
                    "them, or a higher limit)",
                    count);
    }
    return found;
  }

 private:
  std::shared_ptr<const Root> make_root(std::vector<Layers> layers) const {
    auto root = std::make_shared<Root>();
    root->closed = tables_.close_groups(layers);
    root->layers = std::move(layers);
    return root;
  }

  void push(Beginning beginning) {
    if (!(beginning.mass > 0)) return;
    beginning.number = ++made_;
    queue_.push(std::move(beginning));
  }

  static void choose(Beginning& beginning, std::size_t instance, std::size_t grade) {
    if (grade > 0) beginning.all.emplace_back(instance, grade);
  }

  /// Steps of a group whose causes are all not of interest part nothing and are passed over.
  void extend_group(Beginning beginning) {
    const GroupPass& pass = tables_.group(0, beginning.group);
    const std::size_t steps = pass.group().blocks.size() + 1;
    while (beginning.step < steps && !any_of_interest(members(pass, beginning.step)))
      ++beginning.step;
    if (beginning.step == steps) {
      budget_ -= work_of_group(beginning.group);
      beginning.root =
          make_root(tables_.add_group(beginning.group, beginning.root->layers, beginning.in_group));
      ++beginning.group;
      beginning.step = 0;
      beginning.in_group.clear();
      push(std::move(beginning));
      return;
    }
    budget_ -= 3 * work_of_group(beginning.group);
    const Parts parts = tables_.parts(beginning.group, beginning.root->layers, beginning.in_group);
    std::map<Choices, double> masses;
    if (beginning.step == 0) {
      for (std::size_t s = 0; s < parts.state.size(); ++s)
        masses[choices_of(pass, 0, s)] += parts.state[s];
    } else {
      const auto& assignment = parts.assignment[beginning.step - 1];
      for (std::size_t x = 0; x < assignment.size(); ++x)
        masses[choices_of(pass, beginning.step, x)] += assignment[x];
    }
    for (const auto& [choices, mass] : masses) {
      Beginning next = beginning;
      next.mass = mass;
      ++next.step;
      for (const auto& [instance, grade] : choices) {
        next.in_group.emplace_back(instance, grade);
        choose(next, instance, grade);
      }
      push(std::move(next));
    }
  }

  static const std::vector<std::size_t>& members(const GroupPass& pass, std::size_t step) {
    return step == 0 ? pass.group().commons : pass.group().blocks[step - 1].instances;
  }

  bool any_of_interest(const std::vector<std::size_t>& instances) const {
    return std::any_of(instances.begin(), instances.end(),
                       [&](std::size_t i) { return of_interest_[i]; });
  }

  Choices choices_of(const GroupPass& pass, std::size_t step, std::size_t state) const {
    Choices choices;
    const auto& instances = members(pass, step);
    for (std::size_t i = 0; i < instances.size(); ++i)
      if (of_interest_[instances[i]])
        choices.emplace_back(instances[i],
                             step == 0
                                 ? pass.prepared().states[state].grades[i]
                                 : Grades(*task_.network, task_.instances, instances).of(state, i));
    return choices;
  }

  double work_of_group(std::size_t g) const {
    const PreparedGroup& group = task_.groups[g];
    double sum = 0;
    for (const Block& block : group.group.blocks)
      sum += static_cast<double>(block.assignments) *
                 std::exp2(static_cast<double>(block.bits.size())) +
             std::exp2(static_cast<double>(group.group.bits.size() + block.bits.size()));
    return sum * static_cast<double>(group.nodes.chunks * lanes * tables_.histories());
  }

  void extend_plain(const Beginning& beginning) {
    const std::size_t instance = tables_.plain()[beginning.step];
    const auto& touches = task_.reports.touches[instance];
    const std::size_t grades = task_.priors.front().grade[instance].size();
    budget_ -= static_cast<double>(grades * tables_.histories() * (task_.reports.bits.size() + 1)) *
               std::exp2(static_cast<double>(task_.reports.bits.size()));
    std::vector<Beginning> next(grades, beginning);
    for (std::size_t g = 0; g < grades; ++g) {
      next[g].mass = 0;
      ++next[g].step;
      choose(next[g], instance, g);
      for (const Touch& touch : touches)
        next[g].quiet[touch.bit] *= 1 - touch.strength[g];
    }
    for (std::size_t h = 0; h < tables_.histories(); ++h) {
      std::vector<double> fired = beginning.root->closed[h];
      fire_once(fired, beginning.quiet);
      for (std::size_t g = 0; g < grades; ++g) {
        next[g].prior[h] *= task_.priors[h].grade[instance][g];
        if (next[g].prior[h] == 0) continue;
        std::vector<double> child = fired;
        fire_touches(child, touches, g);
        next[g].mass += next[g].prior[h] * tables_.mass(h, child, next[g].step);
      }
    }
    for (Beginning& one : next)
      push(std::move(one));
  }

  /// All plain choices so far at once: they leave bit b unexplained with probability quiet[b].
  static void fire_once(std::vector<double>& table, const std::vector<double>& quiet) {
    std::vector<Touch> together;
    for (std::size_t bit = 0; bit < quiet.size(); ++bit)
      if (quiet[bit] < 1) together.push_back({bit, {1 - quiet[bit]}});
    fire_touches(table, together, 0);
  }

  Explanation complete(const Beginning& beginning) const {
    Explanation explanation;
    explanation.probability = beginning.mass / tables_.total();
    Choices sorted = beginning.all;
    std::sort(sorted.begin(), sorted.end());
    for (const auto& [instance, grade] : sorted)
      explanation.present.push_back(
          {task_.instances[instance].cause, task_.instances[instance].cylinder, grade});
    return explanation;
  }

  const SearchTables& tables_;
  const Task& task_;
  const std::vector<bool>& of_interest_;  ///< one an instance
  double budget_;
  std::size_t made_ = 0;
  std::priority_queue<Beginning, std::vector<Beginning>, Lighter> queue_;
};

}  // namespace

std::vector<Explanation> explanations_of(const Task& task, const Evidence& evidence,
                                         const ExplanationQuery& query, const Limits& limits) {
  if (task.impossible() || std::isinf(log_evidence_of(task)) || query.count == 0) return {};
  std::vector<bool> of_interest(task.instances.size(), true);
  if (query.of_interest.empty())
    for (const std::size_t idle : task.partition.idle)
      of_interest[idle] = false;
  else
    for (std::size_t i = 0; i < of_interest.size(); ++i)
      of_interest[i] = query.of_interest[task.instances[i].cause];
  constexpr std::size_t most_bits = 18;
  if (task.reports.bits.size() <= most_bits) {
    const SearchTables tables(task, of_interest);
    auto best = Search(tables, of_interest, std::exp2(limits.log2_work)).best(query.count);
    if (best) return std::move(*best);
  }
  return sampled_explanations(*task.network, evidence, query);
}

}  // namespace soot::infer
