// A job put to the program as a person would, and where the answer that somebody else calls right
// stands in its list by cause.
#pragma once

#include "core/model/job.hpp"
#include "core/report/answers.hpp"
#include "core/workbench/engine.hpp"
#include "tests/judges/code_map.hpp"

#include <string>
#include <vector>

namespace soot::judges {

/// The list by cause as it is shown. Fails on a job with faults, or on one that cannot happen under
/// the knowledge.
Result<std::vector<CauseLine>> ranked_causes(const Engine& engine, const Job& job);

/// Whether a grade's id names the direction: "one-late" and "late-gross" go late.
bool grade_goes(const std::string& grade, const std::string& direction);

/// Place in the list, from 1, of the first of these ids; 0 if none is there.
std::size_t place_of(const std::vector<CauseLine>& list, const std::vector<MappedId>& ids);

/// The same, of a cause whose likeliest grade goes in the told direction.
std::size_t directed_place_of(const std::vector<CauseLine>& list, const std::vector<MappedId>& ids);

}  // namespace soot::judges
