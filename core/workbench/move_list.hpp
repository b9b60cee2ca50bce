// What can be done next, for the planner: checks not yet made, corrections of what is suspected,
// the complaint's own run, and what each asks for first (covers off, engine cold, gates
// opened).
#pragma once

#include "core/plan/situation.hpp"
#include "core/workbench/hypotheses.hpp"

#include <string>
#include <utility>
#include <vector>

namespace soot {

struct CheckMove {
  const Check* check = nullptr;
  std::vector<int> cylinders;  ///< empty for the engine
};

struct CorrectionMove {
  const Correction* correction = nullptr;
  std::vector<int> cylinders;
};

/// Indices into Situation::bits.
struct BitNames {
  std::vector<const Cover*> covers;  ///< bits 0 .. covers.size() - 1
  std::size_t hot = 0;
  std::vector<std::pair<const Gate*, std::size_t>> gates;  ///< that can be proved
};

struct MoveList {
  plan::Situation situation;
  std::vector<CheckMove> checks;            ///< one a Situation::checks
  std::vector<CorrectionMove> corrections;  ///< one a Situation::corrections
  BitNames bits;
};

/// `skipped`: ids of checks that cannot be made here. `tools`: ids at hand.
MoveList list_moves(const Engine& engine, const Inquiry& inquiry, const Hypotheses& hypotheses,
                    const std::vector<Observation>& complaints,
                    const std::vector<std::string>& skipped, const std::vector<std::string>& tools);

}  // namespace soot
