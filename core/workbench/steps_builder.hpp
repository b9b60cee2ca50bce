// The steps of a check or a correction with this engine's figures in their places.
#pragma once

#include "core/report/steps.hpp"
#include "core/workbench/engine.hpp"

#include <string>

namespace soot {

/// Of a check, a correction, or a procedure by itself. Fails (Kind::use) on any other id.
Result<StepsSheet> steps_of(const Engine& engine, const std::string& id);

}  // namespace soot
