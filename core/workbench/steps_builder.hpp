// The steps of a check or a correction with this engine's figures in their places.
#pragma once

#include "core/model/job.hpp"
#include "core/report/steps.hpp"
#include "core/workbench/engine.hpp"

#include <string>

namespace soot {

/// Of a check, a correction, or a procedure by itself; of a job, with what has to be proved before.
/// Fails (Kind::use) on any other id.
Result<StepsSheet> steps_of(const Engine& engine, const std::string& id, const Job* job = nullptr);

}  // namespace soot
