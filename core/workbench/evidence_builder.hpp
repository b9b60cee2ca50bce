// A job's lines as evidence on a built network: what silences what, how a mark was reached, and
// what a correction leaves standing.
#pragma once

#include "core/infer/evidence.hpp"
#include "core/model/job.hpp"
#include "core/workbench/network_builder.hpp"

#include <string>
#include <vector>

namespace soot {

/// Where one finding or reading of the evidence came from. A coarse quantity's reading is a
/// finding.
struct Trace {
  bool is_reading = false;
  std::size_t entry = 0;  ///< index into Job::observations or Job::readings
};

struct BuiltEvidence {
  infer::Evidence evidence;
  std::vector<Trace> findings;  ///< one a finding
  std::vector<Trace> readings;  ///< one a reading
  /// What was left out or counted otherwise than typed, in sentences: silenced reports, a symptom
  /// both present and absent, lines that a correction overtook.
  std::vector<std::string> remarks;
};

/// Which lines still speak: one flag an observation and a reading.
struct Standing {
  std::vector<bool> observations;
  std::vector<bool> readings;
};

/// Every line counts.
Standing all_standing(const Job& job);

/// The job must be without faults (entry_check.hpp). Of a symptom reported twice on one cylinder
/// the last line counts. A special report silences the general one it agrees with, or overrides it;
/// a reading silences the yes/no finding that it measures.
BuiltEvidence build_evidence(const Engine& engine, const BuiltNetwork& built, const Job& job,
                             const Standing& standing);

}  // namespace soot
