// Internal to core/infer. The answer where an exact one is too much work: several seeded random
// walks (gibbs.hpp), started apart; how far they disagree is the standard error. Of the probability
// of the evidence they say nothing.
#pragma once

#include "core/infer/answer.hpp"

#include <vector>

namespace soot::infer {

/// `reason`: why no exact answer was given.
Posterior sampled_posterior(const Network& network, const Evidence& evidence,
                            const std::string& reason);

/// The joint states met most often, of the causes of interest.
std::vector<Explanation> sampled_explanations(const Network& network, const Evidence& evidence,
                                              const ExplanationQuery& query);

}  // namespace soot::infer
