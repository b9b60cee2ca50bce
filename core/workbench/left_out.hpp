// Why an engine has nothing of that name, where engines with other parts have.
#pragma once

#include "core/workbench/engine.hpp"

#include <string>
#include <string_view>

namespace soot {

/// "only with: a pump by itself for each cylinder", or "" for an id that no engine has (or where
/// the engine does not say what its knowledge was taken from).
std::string why_left_out(const Engine& engine, std::string_view id);

}  // namespace soot
