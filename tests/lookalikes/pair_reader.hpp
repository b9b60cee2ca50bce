// Reads the table of causes that look alike; its head says how it is written.
#pragma once

#include "core/base/problem.hpp"
#include "core/model/job.hpp"
#include "core/workbench/engine.hpp"

#include <filesystem>
#include <string>
#include <vector>

namespace soot::judges {

struct SuspectName {
  std::string cause;
  std::string direction;  ///< empty: any grade
  int cylinder = 0;
};

/// A symptom seen or missed, or a reading.
struct SeenLine {
  std::string id;
  int cylinder = 0;  ///< 0: the engine, or every cylinder
  bool present = true;
  std::string value;  ///< with its unit; empty: a symptom
};

/// What is made together, and what it shows with the one and with the other.
struct PartingChecks {
  std::vector<std::string> checks;
  std::vector<SeenLine> one, other;
};

struct Lookalikes {
  SuspectName one, other;
  std::vector<std::string> needs;
  std::vector<SeenLine> told;
  std::vector<PartingChecks> parted_by;
};

/// Fails with every pair that lacks a part or has an unknown key.
Result<std::vector<Lookalikes>> load_lookalikes(const std::filesystem::path& path);

/// A line without a cylinder is entered on each where its symptom or quantity is of a cylinder. Ids
/// that the engine lacks are left for the workbench to complain of.
Job job_of(const Engine& engine, const std::vector<std::vector<SeenLine>>& seen);

}  // namespace soot::judges
