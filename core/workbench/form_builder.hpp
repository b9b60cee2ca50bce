// The bench form of a check or a correction on this engine.
#pragma once

#include "core/report/bench_form.hpp"
#include "core/workbench/engine.hpp"

#include <string>

namespace soot {

/// Of that check or correction; an empty id is the engine's way of setting its timing. Fails
/// (Kind::use) on another id, and on an engine of which nothing is set so.
Result<BenchForm> form_of(const Engine& engine, const std::string& id);

}  // namespace soot
