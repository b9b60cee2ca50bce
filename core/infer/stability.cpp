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

/// The prepared task asked again with other priors and strengths: the readings' nodes and all plans
/// stay as they are.
class Asked {
 public:
  Asked(Task task, const Network& network, const Evidence& evidence)
      : task_(std::move(task)), evidence_(evidence), network_(network), original_(network) {}

  /// Chance of each cause in any cylinder, its instances taken as independent.
  std::vector<double> presence(const std::function<void(Network&)>& change) {
    network_ = original_;
    change(network_);
    task_.network = &network_;
    task_.reports = sort_reports(network_, task_.instances, evidence_);
    for (std::size_t h = 0; h < task_.histories.size(); ++h) {
      const std::size_t history = task_.histories[h];
      task_.priors[h] = absorb(network_, task_.instances, task_.reports, history);
      task_.log_weight[h] = std::log(evidence_.history ? 1 : network_.history_prior[history]) +
                            task_.priors[h].log_constant + task_.log_constant;
    }
    const Posterior answer = posterior_of(task_, false);
    std::vector<double> sound(network_.causes.size(), 1.0);
    for (const Instance& instance : answer.instances)
      sound[instance.cause] *= 1 - instance.present();
    for (double& one : sound)
      one = 1 - one;
    return sound;
  }

 private:
  Task task_;
  const Evidence& evidence_;
  Network network_;
  const Network& original_;
};

std::vector<std::size_t> ranked(const std::vector<double>& chances) {
  std::vector<std::size_t> order(chances.size());
  for (std::size_t i = 0; i < order.size(); ++i)
    order[i] = i;
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return chances[a] > chances[b]; });
  return order;
}

/// Single numbers that let another cause come first when they are off by the factor.
std::vector<Hinge> find_hinges(Asked& asked, const Network& network, const Evidence& evidence,
                               const std::vector<std::size_t>& order, double factor) {
  std::vector<Hinge> hinges;
  const auto turns = [&](const std::function<void(Network&)>& change) {
    const std::vector<double> chances = asked.presence(change);
    return ranked(chances).front() != order.front();
  };
  for (std::size_t place = 0; place < std::min<std::size_t>(2, order.size()); ++place) {
    const std::size_t cause = order[place];
    const double against = place == 0 ? 1 / factor : factor;
    if (turns([&](Network& net) {
          for (std::vector<double>& grades : net.causes[cause].prior)
            scale_odds(grades, against);
        }))
      hinges.push_back({cause, std::nullopt});
    for (std::size_t s = 0; s < network.symptoms.size(); ++s) {
      const auto& links = network.symptoms[s].links;
      const auto link = std::find_if(links.begin(), links.end(),
                                     [&](const Link& one) { return one.cause == cause; });
      const auto found = std::find_if(evidence.findings.begin(), evidence.findings.end(),
                                      [&](const Finding& finding) { return finding.symptom == s; });
      if (link == links.end() || found == evidence.findings.end()) continue;
      const double way = found->present ? against : 1 / against;
      if (turns([&](Network& net) {
            for (Link& one : net.symptoms[s].links)
              for (double& strength : one.strength)
                if (one.cause == cause) scale_odds(strength, way);
          }))
        hinges.push_back({cause, s});
    }
  }
  return hinges;
}

}  // namespace

std::optional<Stability> stability_of(Task task, const Evidence& evidence,
                                      const StabilityQuery& query) {
  const Network& network = *task.network;
  if (task.impossible()) return std::nullopt;
  double steps = task.chain.work + task.forest.work;
  for (const PreparedGroup& group : task.groups)
    steps += group.pass_work;
  steps *= static_cast<double>(task.histories.size());
  constexpr std::size_t fewest_draws = 10;
  const auto draws = static_cast<std::size_t>(std::min(
      static_cast<double>(query.draws), std::exp2(query.log2_work) / std::max(1.0, steps)));
  if (draws < fewest_draws) return std::nullopt;
  Asked asked(std::move(task), network, evidence);
  const std::vector<std::size_t> order = ranked(asked.presence([](Network&) {}));
  if (order.empty()) return std::nullopt;
  Stability result;
  result.factor = query.factor;
  result.draws = draws;
  Dice dice(query.seed);
  for (std::size_t draw = 0; draw < draws; ++draw) {
    const std::vector<std::size_t> now = ranked(asked.presence([&](Network& net) {
      const auto off = [&] { return std::pow(query.factor, dice.real(-1, 1)); };
      for (Cause& cause : net.causes) {
        const double common = off();
        for (std::vector<double>& grades : cause.prior)
          scale_odds(grades, common);
      }
      for (Symptom& symptom : net.symptoms)
        for (Link& link : symptom.links) {
          const double common = off();
          for (double& strength : link.strength)
            scale_odds(strength, common);
        }
    }));
    const auto place = std::find(now.begin(), now.end(), order.front()) - now.begin();
    result.stays_first += place == 0 ? 1 : 0;
    result.stays_in_three += place < 3 ? 1 : 0;
  }
  result.stays_first /= static_cast<double>(draws);
  result.stays_in_three /= static_cast<double>(draws);
  result.hinges = find_hinges(asked, network, evidence, order, query.factor);
  return result;
}

}  // namespace soot::infer
