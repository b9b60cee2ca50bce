// A job put to the engine's network: everything that rank, weigh and next start from. Corrections
// made are followed line by line: what a correction can change counts only from later lines, the
// mended cause keeps (1 - chance of cure) of its probability, what the work can bring gets the
// prior of a rebuild.
#pragma once

#include "core/infer/answer.hpp"
#include "core/model/job.hpp"
#include "core/workbench/evidence_builder.hpp"

#include <string>
#include <vector>

namespace soot {

struct Inquiry {
  Job job;             ///< as given, with what the proving runs report of the complaint added
  BuiltNetwork built;  ///< its instance priors hold what corrections left
  BuiltEvidence evidence;
  Standing standing;
  bool is_cured = false;  ///< the last proving run said so and nothing was reported since
};

/// Fails on a job with faults (entry_check.hpp), all named. The engine must outlive the inquiry.
Result<Inquiry> inquire(const Engine& engine, const Job& job);

/// How exactly the workbench asks; the answers say how much was really given up.
inline constexpr infer::Limits asked_limits{.tolerance = 1e-4};

/// The complaint's symptoms: those marked, else every one present (unsure ones too).
std::vector<Observation> complaints_of(const Job& job);

}  // namespace soot
