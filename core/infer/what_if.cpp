#include "core/infer/answer.hpp"

#include <cmath>

namespace soot::infer {

Result<std::vector<Outcome>> what_ifs(const Network& network, const Evidence& evidence,
                                      const std::vector<WhatIf>& additions, const Limits& limits) {
  const auto before = posterior(network, evidence, limits);
  if (!before) return pass_on(before);
  if (before->impossible)
    return fail(Kind::data,
                "the evidence contradicts itself: the model gives it probability 0 (expected "
                "evidence that can occur)");
  std::vector<Outcome> outcomes;
  for (const WhatIf& addition : additions) {
    Evidence after = evidence;
    after.findings.insert(after.findings.end(), addition.findings.begin(), addition.findings.end());
    after.readings.insert(after.readings.end(), addition.readings.begin(), addition.readings.end());
    auto answer = posterior(network, after, limits);
    if (!answer) return pass_on(answer);
    const double probability = std::exp(answer->log_evidence - before->log_evidence);
    outcomes.push_back({probability, std::move(*answer)});
  }
  return outcomes;
}

}  // namespace soot::infer
