#include "core/base/parallel.hpp"
#include "core/infer/dice.hpp"
#include "core/infer/task.hpp"

#include <algorithm>
#include <cmath>
#include <functional>

namespace soot::infer {

namespace {

/// Odds times a factor; several grades keep their shares.
void scale_odds(std::vector<double>& grades, double factor) {
  double sum = 0;
  for (const double one : grades)
    sum += one;
  for (double& one : grades)
    one *= factor / (1 + (factor - 1) * sum);
}

void scale_odds(double& strength, double factor) {
  strength *= factor / (1 + (factor - 1) * strength);
}

using Change = std::function<void(Network&)>;

/// Of a symptom that nobody reported no strength matters: without its links there is less to draw
/// and to copy.
Network of_what_was_reported(Network network, const Evidence& evidence) {
  std::vector<bool> is_reported(network.symptoms.size());
  for (const Finding& finding : evidence.findings)
    is_reported[finding.symptom] = true;
  for (std::size_t s = 0; s < network.symptoms.size(); ++s)
    if (!is_reported[s]) network.symptoms[s].links.clear();
  return network;
}

/// Chance of each cause in any cylinder, its instances taken as independent.
std::vector<double> presence_in(const Posterior& answer, std::size_t causes) {
  std::vector<double> sound(causes, 1.0);
  for (const Instance& instance : answer.instances)
    sound[instance.cause] *= 1 - instance.present();
  for (double& one : sound)
    one = 1 - one;
  return sound;
}

/// The prepared task asked again with other priors and strengths: the readings' nodes and all plans
/// stay as they are.
class Asked {
 public:
  Asked(const Task& task, const Network& original, const Evidence& evidence)
      : task_(task), evidence_(evidence), original_(original), network_(original) {
    task_.network = &network_;
  }

  std::vector<double> presence(const Change& change) {
    network_ = original_;
    change(network_);
    task_.reports = sort_reports(network_, task_.instances, evidence_);
    for (std::size_t h = 0; h < task_.histories.size(); ++h) {
      const std::size_t history = task_.histories[h];
      task_.priors[h] = absorb(network_, task_.instances, task_.reports, history);
      task_.log_weight[h] = std::log(evidence_.history ? 1 : network_.history_prior[history]) +
                            task_.priors[h].log_constant + task_.log_constant;
    }
    return presence_in(posterior_of(task_, false), network_.causes.size());
  }

 private:
  Task task_;
  const Evidence& evidence_;
  const Network& original_;
  Network network_;
};

std::vector<std::size_t> ranked(const std::vector<double>& chances) {
  std::vector<std::size_t> order(chances.size());
  for (std::size_t i = 0; i < order.size(); ++i)
    order[i] = i;
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return chances[a] > chances[b]; });
  return order;
}

/// The causes in falling order of their chance, under each change.
std::vector<std::vector<std::size_t>> rankings(const Task& task, const Network& network,
                                               const Evidence& evidence,
                                               const std::vector<Change>& changes) {
  constexpr std::size_t shares = 8;  // each with a network of its own
  std::vector<std::vector<std::size_t>> all(changes.size());
  in_parallel(std::min(shares, changes.size()), [&](std::size_t share) {
    Asked asked(task, network, evidence);
    for (std::size_t i = share; i < changes.size(); i += shares)
      all[i] = ranked(asked.presence(changes[i]));
  });
  return all;
}

/// All priors and strengths off, by a factor each.
std::vector<Change> draws_of(const Network& network, const StabilityQuery& query,
                             std::size_t count) {
  std::vector<Change> draws;
  Dice dice(query.seed);
  for (std::size_t draw = 0; draw < count; ++draw) {
    std::vector<double> off(network.causes.size());
    for (const Symptom& symptom : network.symptoms)
      off.resize(off.size() + symptom.links.size());
    for (double& one : off)
      one = std::pow(query.factor, dice.real(-1, 1));
    draws.emplace_back([off = std::move(off)](Network& net) {
      auto next = off.begin();
      for (Cause& cause : net.causes) {
        for (std::vector<double>& grades : cause.prior)
          scale_odds(grades, *next);
        ++next;
      }
      for (Symptom& symptom : net.symptoms)
        for (Link& link : symptom.links) {
          for (double& strength : link.strength)
            scale_odds(strength, *next);
          ++next;
        }
    });
  }
  return draws;
}

/// How many times as probable the first cause is at least, in its likeliest instance, as any other
/// is at most, in all its instances together.
double lead_of(const Posterior& whole, std::size_t first, std::size_t causes) {
  double least = 0;
  std::vector<double> most(causes, 0.0);
  for (const Instance& instance : whole.instances) {
    most[instance.cause] += instance.present();
    if (instance.cause == first) least = std::max(least, instance.present());
  }
  most[first] = 0;
  return least / *std::max_element(most.begin(), most.end());
}

/// A number whose odds are off by a factor f changes, for each instance and finding it stands for,
/// the weight of any state of the causes by a factor from 1/f to f: the odds between two causes by
/// f^2 at most.
double most_moved(double factor, std::size_t instances_and_findings) {
  return std::pow(factor, 2 * static_cast<double>(instances_and_findings));
}

/// Single numbers that might let another cause come first when they are off by the factor: what
/// speaks for the first or against the second. `lead`: of the first.
std::vector<std::pair<Hinge, Change>> possible_hinges(const Task& task, const Network& network,
                                                      const Evidence& evidence,
                                                      const std::vector<std::size_t>& order,
                                                      double lead, double factor) {
  std::vector<std::pair<Hinge, Change>> hinges;
  std::vector<std::size_t> reports(network.symptoms.size());
  for (const Finding& finding : evidence.findings)
    ++reports[finding.symptom];
  for (std::size_t place = 0; place < std::min<std::size_t>(2, order.size()); ++place) {
    const std::size_t cause = order[place];
    const double against = place == 0 ? 1 / factor : factor;
    const std::size_t instances = task.instances.count_of(cause);
    if (!(lead > most_moved(factor, instances)))
      hinges.emplace_back(Hinge{cause, std::nullopt}, [cause, against](Network& net) {
        for (std::vector<double>& grades : net.causes[cause].prior)
          scale_odds(grades, against);
      });
    for (std::size_t s = 0; s < network.symptoms.size(); ++s) {
      const auto& links = network.symptoms[s].links;
      const bool is_linked = std::any_of(links.begin(), links.end(),
                                         [&](const Link& one) { return one.cause == cause; });
      const auto found = std::find_if(evidence.findings.begin(), evidence.findings.end(),
                                      [&](const Finding& finding) { return finding.symptom == s; });
      if (!is_linked || found == evidence.findings.end()) continue;
      if (lead > most_moved(factor, instances * reports[s])) continue;
      const double way = found->present ? against : 1 / against;
      hinges.emplace_back(Hinge{cause, s}, [cause, s, way](Network& net) {
        for (Link& one : net.symptoms[s].links)
          for (double& strength : one.strength)
            if (one.cause == cause) scale_odds(strength, way);
      });
    }
  }
  return hinges;
}

}  // namespace

std::optional<Stability> stability_of(const Task& task, const Evidence& evidence,
                                      const Posterior& whole, const StabilityQuery& query) {
  if (task.impossible()) return std::nullopt;
  double steps = task.plan->chain.work + task.plan->forest.work;
  for (const auto& group : task.plan->groups)
    steps += group->pass_work;
  steps *= static_cast<double>(task.histories.size());
  constexpr std::size_t fewest_draws = 10;
  const auto draws = static_cast<std::size_t>(std::min(
      static_cast<double>(query.draws), std::exp2(query.log2_work) / std::max(1.0, steps)));
  if (draws < fewest_draws) return std::nullopt;
  const Network network = of_what_was_reported(*task.network, evidence);
  const std::vector<std::size_t> order = ranked(presence_in(whole, network.causes.size()));
  if (order.empty()) return std::nullopt;
  const double lead = lead_of(whole, order.front(), network.causes.size());
  const auto hinges = possible_hinges(task, network, evidence, order, lead, query.factor);
  std::vector<Change> changes = draws_of(network, query, draws);
  for (const auto& [hinge, change] : hinges)
    changes.push_back(change);
  const auto turned = rankings(task, network, evidence, changes);
  Stability result;
  result.factor = query.factor;
  result.draws = draws;
  for (std::size_t draw = 0; draw < draws; ++draw) {
    const std::vector<std::size_t>& now = turned[draw];
    const auto place = std::find(now.begin(), now.end(), order.front()) - now.begin();
    result.stays_first += place == 0 ? 1 : 0;
    result.stays_in_three += place < 3 ? 1 : 0;
  }
  result.stays_first /= static_cast<double>(draws);
  result.stays_in_three /= static_cast<double>(draws);
  for (std::size_t i = 0; i < hinges.size(); ++i)
    if (turned[draws + i].front() != order.front()) result.hinges.push_back(hinges[i].first);
  return result;
}

}  // namespace soot::infer
