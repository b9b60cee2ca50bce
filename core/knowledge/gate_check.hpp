// Whether the safety gates name what is there.
#pragma once

#include "core/base/problem.hpp"
#include "core/model/knowledge.hpp"

namespace soot {

/// Every unknown check, symptom, caution, history, figure and source that a gate names, each at its
/// place.
Problems gate_faults(const Knowledge& knowledge);

}  // namespace soot
