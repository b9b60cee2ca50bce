// What a hand needs beside the book's figures when timing is read or set on this engine: order with
// crank angles, what a flat is worth, the depth to set to while the jam nut is slack.
#pragma once

#include "core/workbench/engine.hpp"

#include <string>
#include <vector>

namespace soot {

/// Whether a check or correction reads or sets timing: by what it reads, or by what its sum asks
/// for.
bool concerns_timing(const Engine& engine, const Check& check);
bool concerns_timing(const Engine& engine, const Correction& correction);

/// "firing order 1-2-4-3, 180 deg from one to the next" and the like; what the family does not know
/// is left out.
std::vector<std::string> setting_lines(const Engine& engine);

}  // namespace soot
