// Readings of coarse quantities as the findings they amount to: this exhaust is cooler than the
// others', that cylinder carries less than half of its share.
#pragma once

#include "core/model/job.hpp"
#include "core/workbench/engine.hpp"

#include <string>
#include <vector>

namespace soot {

struct Shown {
  std::size_t reading = 0;  ///< index into Job::readings
  Observation finding;      ///< its line is the reading's
};

struct CoarseFindings {
  std::vector<Shown> shown;
  std::vector<std::string> remarks;  ///< readings with nothing to be held against
};

/// Of the standing readings (one flag a reading). Of several on one cylinder the last counts. A
/// bound is taken at its value.
CoarseFindings coarse_findings(const Engine& engine, const Job& job,
                               const std::vector<bool>& standing);

}  // namespace soot
