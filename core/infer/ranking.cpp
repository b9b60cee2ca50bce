#include "core/infer/sampling.hpp"
#include "core/infer/task.hpp"

namespace soot::infer {

namespace {

Result<void> check_query(const Network& network, const Evidence& evidence,
                         const ExplanationQuery& query) {
  if (const auto sound = check(network, evidence); !sound) return pass_on(sound);
  if (!query.of_interest.empty() && query.of_interest.size() != network.causes.size())
    return fail(Kind::data, "{} marks of interest for {} causes (expected none or one each)",
                query.of_interest.size(), network.causes.size());
  return {};
}

}  // namespace

Result<std::vector<Explanation>> explanations(const Network& network, const Evidence& evidence,
                                              const ExplanationQuery& query, const Limits& limits) {
  if (const auto sound = check_query(network, evidence, query); !sound) return pass_on(sound);
  const auto task = prepare(network, evidence, limits);
  if (!task) return sampled_explanations(network, evidence, query);
  return explanations_of(*task, evidence, query, limits);
}

Result<Ranking> ranking(const Network& network, const Evidence& evidence,
                        const ExplanationQuery& explained,
                        const std::optional<StabilityQuery>& stable, const Limits& limits) {
  if (const auto sound = check_query(network, evidence, explained); !sound) return pass_on(sound);
  auto task = prepare(network, evidence, limits);
  if (!task)
    return Ranking{sampled_posterior(network, evidence, task.error().front().text),
                   sampled_explanations(network, evidence, explained), std::nullopt};
  Ranking result{posterior_of(*task, limits.by_cause), {}, {}};
  if (result.posterior.impossible) return result;
  result.explanations = explanations_of(*task, evidence, explained, limits);
  if (stable) result.stability = stability_of(*task, evidence, result.posterior, *stable);
  return result;
}

}  // namespace soot::infer
