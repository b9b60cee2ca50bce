// A look over the whole knowledge by somebody who tends it: what is there and does nothing, what
// nothing finds, what nothing parts, how many causes are expected before anything is known. None of
// it is an error.
#pragma once

#include "core/report/review.hpp"
#include "core/workbench/bench.hpp"

namespace soot {

/// Notes carry the place of the entry they speak of. A cause or pair is noted as not parted only if
/// no family of the bench that can have it parts it.
Result<KnowledgeReview> review_of(const Bench& bench);

}  // namespace soot
