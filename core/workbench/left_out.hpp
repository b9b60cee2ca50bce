// Why a name is not what it was taken for: of other engines, or of another kind.
#pragma once

#include "core/workbench/engine.hpp"

#include <string>
#include <string_view>

namespace soot {

/// "only with: a pump by itself for each cylinder", or "" for an id that no engine has (or where
/// the engine does not say what its knowledge was taken from).
std::string why_left_out(const Engine& engine, std::string_view id);

/// "a cause (sootsayer weigh lifter-one)": what of this engine has that id and what is done with
/// it, or "".
std::string what_else(const Knowledge& knowledge, std::string_view id);

}  // namespace soot
