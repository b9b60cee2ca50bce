#include "core/guide/review.hpp"

#include "core/guide/review_parts.hpp"

namespace soot {

Result<KnowledgeReview> review_of(const Bench& bench) {
  const Knowledge& knowledge = bench.knowledge();
  KnowledgeReview review;
  review.counts = {
      {"cause", knowledge.causes.size()},           {"symptom", knowledge.symptoms.size()},
      {"quantity", knowledge.quantities.size()},    {"check", knowledge.checks.size()},
      {"correction", knowledge.corrections.size()}, {"procedure", knowledge.procedures.size()},
      {"caution", knowledge.cautions.size()},       {"source", knowledge.sources.size()}};
  review_use(knowledge, review);
  review_signs(knowledge, review);
  review_features(bench, review);
  if (const Result<void> done = review_parting(bench, review); !done)
    return tl::unexpected<Problems>(done.error());
  if (const Result<void> done = review_priors(bench, review); !done)
    return tl::unexpected<Problems>(done.error());
  return review;
}

}  // namespace soot
