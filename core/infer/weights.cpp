#include "core/infer/answer.hpp"
#include "core/infer/instances.hpp"

#include <cmath>

namespace soot::infer {

namespace {

/// From the two sides' own sums: 1 - p would lose the rare side.
double log_odds(const Network& network, const Posterior& posterior, std::size_t cause,
                int cylinder) {
  const bool over_cylinders = network.causes[cause].scope == Scope::cylinder && cylinder == 0;
  if (over_cylinders) return std::log(posterior.any[cause]) - std::log(posterior.none[cause]);
  const Instance& instance = posterior.instances[Instances(network).index_of(cause, cylinder)];
  return std::log(instance.present()) - std::log(instance.grade[0]);
}

/// Equal infinite odds are no change.
double difference(double with, double without) {
  return with == without ? 0 : with - without;
}

}  // namespace

Result<Weights> weights(const Network& network, const Evidence& evidence, std::size_t cause,
                        int cylinder, const Limits& limits) {
  const auto whole = posterior(network, evidence, limits);
  if (!whole) return pass_on(whole);
  const int cylinders = network.cylinders;
  if (cause >= network.causes.size())
    return fail(Kind::data, "weights of cause {} (expected below {})", cause,
                network.causes.size());
  const bool engine_wide = network.causes[cause].scope == Scope::engine;
  if (cylinder < 0 || cylinder > (engine_wide ? 0 : cylinders))
    return fail(Kind::data, "weights of {} in cylinder {} (expected 0 to {})",
                network.causes[cause].id, cylinder, engine_wide ? 0 : cylinders);
  const std::string contradiction =
      "the evidence contradicts itself: the model gives it probability 0 (expected evidence that "
      "can occur)";
  if (whole->impossible) return fail(Kind::data, "{}", contradiction);

  Weights result;
  result.log_odds = log_odds(network, *whole, cause, cylinder);
  Evidence nothing;
  nothing.history = evidence.history;
  const auto prior = posterior(network, nothing, limits);
  if (!prior) return pass_on(prior);
  result.prior_log_odds = log_odds(network, *prior, cause, cylinder);
  for (std::size_t i = 0; i < evidence.findings.size() + evidence.readings.size(); ++i) {
    Evidence without = evidence;
    const bool finding = i < evidence.findings.size();
    if (finding)
      without.findings.erase(without.findings.begin() + static_cast<std::ptrdiff_t>(i));
    else
      without.readings.erase(without.readings.begin() +
                             static_cast<std::ptrdiff_t>(i - evidence.findings.size()));
    const auto rest = posterior(network, without, limits);
    if (!rest) return pass_on(rest);
    const double weight = difference(result.log_odds, log_odds(network, *rest, cause, cylinder));
    (finding ? result.findings : result.readings).push_back(weight);
  }
  return result;
}

}  // namespace soot::infer
