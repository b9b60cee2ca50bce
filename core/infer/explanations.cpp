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
  std::shared_ptr<const Root> root;
  std::size_t group = 0;  ///< the group it stands in
  std::size_t step = 0;   ///< in a group: 0 the commons, then the blocks; after: plain instances
  Choices in_group;       ///< of that group
  Choices all;            ///< present ones of everything before
  std::vector<double> prior;  ///< one a history: of the plain choices
  std::vector<double> quiet;  ///< one a bit: P(the plain choices left it unexplained)
};

/// All extensions of a beginning by one step, the greatest first. Made one by one: few are asked
/// for.
struct Extensions {
  Beginning before;
  std::vector<std::pair<double, Choices>> next;  ///< mass, and what the step chooses
};

/// The greatest extension that was not asked for yet.
struct Waiting {
  std::shared_ptr<const Extensions> all;
  std::size_t at = 0;
  std::size_t number = 0;  ///< in order of making: equal masses are taken in this order

  double mass() const { return all->next[at].first; }
};

struct Lighter {
  bool operator()(const Waiting& a, const Waiting& b) const {
    return a.mass() != b.mass() ? a.mass() < b.mass() : a.number > b.number;
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
    const double mass = first.mass;
    push(std::move(first), {{mass, {}}});
  }

  Result<std::vector<Explanation>> best(std::size_t count) {
    std::vector<Explanation> found;
    while (found.size() < count && !queue_.empty()) {
      Beginning top = take();
      if (top.group < tables_.groups()) {
        extend_group(std::move(top));
      } else if (top.step < tables_.plain().size()) {
        extend_plain(std::move(top));
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

  void push(Beginning before, std::vector<std::pair<double, Choices>> next) {
    next.erase(
        std::remove_if(next.begin(), next.end(), [](const auto& one) { return !(one.first > 0); }),
        next.end());
    if (next.empty()) return;
    std::stable_sort(next.begin(), next.end(),
                     [](const auto& a, const auto& b) { return a.first > b.first; });
    queue_.push(
        {std::make_shared<Extensions>(Extensions{std::move(before), std::move(next)}), 0, ++made_});
  }

  Beginning take() {
    Waiting waiting = queue_.top();
    queue_.pop();
    const auto& [mass, choices] = waiting.all->next[waiting.at];
    Beginning taken = waiting.all->before;
    taken.mass = mass;
    for (const auto& [instance, grade] : choices) {
      if (taken.group < tables_.groups()) taken.in_group.emplace_back(instance, grade);
      if (grade > 0) taken.all.emplace_back(instance, grade);
      if (taken.group < tables_.groups()) continue;
      for (const Touch& touch : task_.reports.touches[instance])
        taken.quiet[touch.bit] *= 1 - touch.strength[grade];
      for (std::size_t h = 0; h < taken.prior.size(); ++h)
        taken.prior[h] *= task_.priors[h].grade[instance][grade];
    }
    if (!choices.empty()) ++taken.step;
    if (++waiting.at < waiting.all->next.size()) queue_.push(std::move(waiting));
    return taken;
  }

  /// Steps of a group whose causes are all not of interest part nothing and are passed over.
  void extend_group(Beginning beginning) {
    const GroupPass& pass = tables_.group(0, beginning.group);
    const std::size_t steps = pass.group().blocks.size() + 1;
    std::vector<std::size_t> asked;
    for (; beginning.step < steps; ++beginning.step) {
      asked = interesting(members(pass, beginning.step));
      if (!asked.empty()) break;
    }
    const std::size_t group = beginning.group;
    if (beginning.step == steps) {
      budget_ -= work_of_group(group);
      beginning.root =
          make_root(tables_.add_group(group, beginning.root->layers, beginning.in_group));
      ++beginning.group;
      beginning.step = 0;
      beginning.in_group.clear();
      const double mass = beginning.mass;
      push(std::move(beginning), {{mass, {}}});
      return;
    }
    budget_ -= 3 * work_of_group(group);
    const Parts parts = tables_.parts(group, beginning.root->layers, beginning.in_group);
    const std::size_t step = beginning.step;
    push(std::move(beginning), step == 0
                                   ? masses_of_states(pass, asked, parts.state)
                                   : masses_of_assignments(pass.group().blocks[step - 1], asked,
                                                           parts.assignment[step - 1]));
  }

  std::vector<std::pair<double, Choices>> masses_of_states(const GroupPass& pass,
                                                           const std::vector<std::size_t>& asked,
                                                           const std::vector<double>& mass) const {
    const std::vector<std::size_t>& commons = pass.group().commons;
    std::map<Choices, double> masses;
    for (std::size_t s = 0; s < mass.size(); ++s) {
      Choices choices;
      for (const std::size_t i : asked)
        choices.emplace_back(commons[i], pass.prepared().states[s].grades[i]);
      masses[choices] += mass[s];
    }
    std::vector<std::pair<double, Choices>> next;
    for (auto& [choices, sum] : masses)
      next.emplace_back(sum, choices);
    return next;
  }

  std::vector<std::pair<double, Choices>> masses_of_assignments(
      const Block& block, const std::vector<std::size_t>& asked,
      const std::vector<double>& mass) const {
    std::vector<std::size_t> members;
    for (const std::size_t i : asked)
      members.push_back(block.instances[i]);
    const Grades all(*task_.network, task_.instances, block.instances);
    const Grades kept(*task_.network, task_.instances, members);
    std::vector<double> sums(kept.total(), 0.0);
    for (std::size_t x = 0; x < mass.size(); ++x) {
      std::size_t y = 0;
      for (std::size_t m = 0; m < asked.size(); ++m)
        y = y * kept.radix(m) + all.of(x, asked[m]);
      sums[y] += mass[x];
    }
    std::vector<std::pair<double, Choices>> next;
    for (std::size_t y = 0; y < sums.size(); ++y) {
      if (!(sums[y] > 0)) continue;
      Choices choices;
      for (std::size_t m = 0; m < members.size(); ++m)
        choices.emplace_back(members[m], kept.of(y, m));
      next.emplace_back(sums[y], std::move(choices));
    }
    return next;
  }

  static const std::vector<std::size_t>& members(const GroupPass& pass, std::size_t step) {
    return step == 0 ? pass.group().commons : pass.group().blocks[step - 1].instances;
  }

  /// Places among `instances` of those of interest.
  std::vector<std::size_t> interesting(const std::vector<std::size_t>& instances) const {
    std::vector<std::size_t> places;
    for (std::size_t i = 0; i < instances.size(); ++i)
      if (of_interest_[instances[i]]) places.push_back(i);
    return places;
  }

  double work_of_group(std::size_t g) const {
    const PreparedGroup& group = *task_.plan->groups[g];
    double sum = 0;
    for (const Block& block : group.group.blocks)
      sum += static_cast<double>(block.assignments) *
                 std::exp2(static_cast<double>(block.bits.size())) +
             std::exp2(static_cast<double>(group.group.bits.size() + block.bits.size()));
    return sum * static_cast<double>(group.nodes.chunks * lanes * tables_.histories());
  }

  void extend_plain(Beginning beginning) {
    const std::size_t instance = tables_.plain()[beginning.step];
    const auto& touches = task_.reports.touches[instance];
    const std::size_t grades = task_.priors.front().grade[instance].size();
    budget_ -= static_cast<double>(grades * tables_.histories() * (task_.reports.bits.size() + 1)) *
               std::exp2(static_cast<double>(task_.reports.bits.size()));
    std::vector<std::pair<double, Choices>> next;
    for (std::size_t g = 0; g < grades; ++g)
      next.push_back({0, {{instance, g}}});
    for (std::size_t h = 0; h < tables_.histories(); ++h) {
      std::vector<double> fired = beginning.root->closed[h];
      fire_once(fired, beginning.quiet);
      for (std::size_t g = 0; g < grades; ++g) {
        const double prior = beginning.prior[h] * task_.priors[h].grade[instance][g];
        if (prior == 0) continue;
        std::vector<double> child = fired;
        fire_touches(child, touches, g);
        next[g].first += prior * tables_.mass(h, child, beginning.step + 1);
      }
    }
    push(std::move(beginning), std::move(next));
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
  std::priority_queue<Waiting, std::vector<Waiting>, Lighter> queue_;
};

}  // namespace

std::vector<Explanation> explanations_of(const Task& task, const Evidence& evidence,
                                         const ExplanationQuery& query, const Limits& limits) {
  if (task.impossible() || std::isinf(log_evidence_of(task)) || query.count == 0) return {};
  std::vector<bool> of_interest(task.instances.size(), true);
  if (query.of_interest.empty())
    for (const std::size_t idle : task.plan->partition.idle)
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
