// A situation made ready for the search: dense rows, closed lists of bits, and for each correction
// the states it moves and where to. Built once for each answer from a situation without faults.
//
// A state is a hypothesis, "something else" (`rest`) or, where no hypothesis is empty, a place kept
// for the sound engine, which then has no weight. A belief holds one number a state.
#pragma once

#include "core/plan/situation.hpp"

#include <bitset>
#include <cstddef>
#include <vector>

namespace soot::plan {

inline constexpr std::size_t most_bits = 256;
using Configuration = std::bitset<most_bits>;
using Belief = std::vector<double>;

/// Weights that leave less than this to 1 leave it to rounding, not to "something else".
inline constexpr double no_rest = 1e-6;

/// Work with the bits closed over what lies under what.
struct Need {
  double cost = 0;
  std::vector<std::size_t> on;
  std::vector<std::size_t> off;
  Configuration set;
  Configuration clear;
  Configuration undo;

  Configuration after(const Configuration& now) const { return ((now | set) & ~clear) & ~undo; }
};

struct CheckTable {
  Need need;
  std::size_t outcomes = 0;
  std::vector<double> rows;  ///< [outcome][state]
};

struct Passage {
  std::size_t to = 0;
  double chance = 0;
};

/// A state that a correction can change.
struct Affected {
  std::size_t state = 0;
  double moved = 0;  ///< chance that something is mended
  std::vector<Passage> passages;
};

struct CorrectionTable {
  Need need;
  std::vector<Affected> affected;  ///< smaller sets first: then a belief can be changed in place
};

/// The same from the state's side: a correction that can change it.
struct Mender {
  std::size_t correction = 0;
  double moved = 0;
};

struct Tables {
  std::size_t states = 0;
  std::size_t rest = 0;
  std::size_t sound = 0;
  Belief start;
  Configuration start_on;
  std::vector<Bit> bits;
  std::vector<CheckTable> checks;
  std::vector<CorrectionTable> corrections;
  std::vector<std::vector<Mender>> menders;  ///< one list a state
  Need run;
  bool can_run = false;
  double hand_over = 0;

  double change_cost(const Need& need, const Configuration& now) const;
};

Tables make_tables(const Situation& situation);

/// Bits with all they lie under, and with all that lies under them.
Configuration with_those_above(const std::vector<Bit>& bits, const std::vector<std::size_t>& list);
Configuration with_those_below(const std::vector<Bit>& bits, const std::vector<std::size_t>& list);

/// Weight of the states the correction can change; chance that it mends something.
double weight_hit(const CorrectionTable& correction, const Belief& belief);
double chance_to_mend(const CorrectionTable& correction, const Belief& belief);

/// In place; the sum stays.
void correct(const CorrectionTable& correction, Belief& belief);

}  // namespace soot::plan
