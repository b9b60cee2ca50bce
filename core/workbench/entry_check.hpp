// Whether an entry can be said of this engine: ids, cylinders, units. One rule for the command
// line, the job file and the ledger.
#pragma once

#include "core/model/job.hpp"
#include "core/workbench/engine.hpp"

#include <optional>
#include <string>

namespace soot {

/// Empty = good. Messages carry the entry's place; kind is `use` without a file, else `data`.
Problems faults_of(const Engine& engine, const Observation& observation);
Problems faults_of(const Engine& engine, const ReadingTaken& reading);
Problems faults_of(const Engine& engine, const WorkDone& work);
/// All of a job: family, history, entries, tools, covers, the truth of a case.
Problems faults_of(const Engine& engine, const Job& job);

/// Why a reading cannot be meant as it was typed (outside what the quantity can be on any engine),
/// or nothing. A person may insist.
std::optional<std::string> absurdity_of(const Engine& engine, const ReadingTaken& reading);

}  // namespace soot
