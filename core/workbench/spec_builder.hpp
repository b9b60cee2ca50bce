// The spec table of one family, figure by figure with where each comes from.
#pragma once

#include "core/report/spec_sheet.hpp"
#include "core/workbench/engine.hpp"

namespace soot {

/// Every figure that the program knows and this engine can have, whether given, worked out or not
/// known, in the order of the table; then the family's own.
SpecSheet spec_of(const Engine& engine);

}  // namespace soot
