// The chapters of a review. Internal to core/guide; each adds its notes.
#pragma once

#include "core/guide/review.hpp"

namespace soot {

/// Entries that nothing names, causes that nothing finds, symptoms that no cause explains, findings
/// that no check answers, checks whose result moves nothing.
void review_use(const Knowledge& knowledge, KnowledgeReview& review);

/// Causes that make a special form of a sign more often than its general form: who tells the
/// general one would be led past them.
void review_signs(const Knowledge& knowledge, KnowledgeReview& review);

/// Features that are not in the vocabulary, of entries and of families; figures that quantities ask
/// for and no family gives.
void review_features(const Bench& bench, KnowledgeReview& review);

/// Pairs of causes that no check parts, and causes without two signs against their likeliest rival.
Result<void> review_parting(const Bench& bench, KnowledgeReview& review);

/// The two figures that keep the priors honest, for each family and history.
Result<void> review_priors(const Bench& bench, KnowledgeReview& review);

}  // namespace soot
