// What a check would show under each hypothesis: rows of outcome probabilities for the planner. A
// look has two outcomes a symptom; a reading falls into bands about the sound engine's value; one
// made on every cylinder says which stands out, so that the pattern parts a common cause from a
// single one.
#pragma once

#include "core/workbench/hypotheses.hpp"

#include <vector>

namespace soot {

/// One row per entry of `sets`, and one of the sound engine at the end. Rows sum to 1.
using Rows = std::vector<std::vector<double>>;

/// Answers of a check not yet given, up to three that part the hypotheses most, all in one.
Rows rows_of_look(const Inquiry& inquiry, const std::vector<Active>& sets,
                  const std::vector<std::size_t>& symptoms);

/// A cylinder's symptom looked for on each of `cylinders`.
Rows rows_of_look(const Inquiry& inquiry, const std::vector<Active>& sets, std::size_t symptom,
                  const std::vector<int>& cylinders);

/// A quantity read on each of `cylinders` ({0}: of the engine).
Rows rows_of_reading(const Inquiry& inquiry, const std::vector<Active>& sets, std::size_t quantity,
                     const std::vector<int>& cylinders);

}  // namespace soot
