// Internal to core/infer. Repeated exact readings of one quantity and cylinder share everything but
// the instrument's scatter: together they are one reading, of their weighted mean, times how well
// they agree with one another. Bounds stay as they are.
#pragma once

#include "core/infer/evidence.hpp"

namespace soot::infer {

/// `log_constant`: what the agreement of the repeats with one another adds to the log evidence.
Evidence merge_repeats(const Evidence& evidence, double& log_constant);

}  // namespace soot::infer
