// What has to be proved before this engine is turned by power or run, as its job stands.
#pragma once

#include "core/model/job.hpp"
#include "core/workbench/engine.hpp"

#include <string>

namespace soot {

/// Nothing shut it, or its proof was made afterwards: its findings looked for and absent, or, of a
/// proof that only reads, every reading within its figure; on every cylinder.
bool is_open(const Engine& engine, const Gate& gate, const Job& job);

/// What is done in that state of the engine asks for the gate.
bool guards(const Gate& gate, Running running);

/// The correction shuts it.
bool shuts(const Gate& gate, const Correction& correction);

/// "first prove that it can be stopped: stop-lever-test (sootsayer steps stop-lever-test), air
/// shut-off ready".
std::string ask_words(const Gate& gate);

}  // namespace soot
