// What a plan starts from, with no word of engines in it: what may be wrong and how likely, what
// stands open, what can be looked at, mended, tried, and what each of these costs. Whoever knows
// the trade builds one; the planner says the next move. Everything is named by its index.
//
// Costs are all in one currency (minutes' worth of the shop's time), finite and not negative.
// Chances and weights lie in 0..1. faults_of() in faults.hpp says what else a situation must keep.
#pragma once

#include <cstddef>
#include <vector>

namespace soot::plan {

/// Causes by number, in any order, none twice.
using CauseSet = std::vector<std::size_t>;

/// The causes that are active now, and how likely that is. No two hypotheses hold the same set:
/// grades that a check parts or that cost differently to mend are causes of their own. The empty
/// set is the sound engine. Weight 0 is allowed: such a set can only come about by mending
/// (sets_left_by() in mending.hpp lists those that are needed).
/// What the weights leave to 1 is "something else": no correction mends it.
struct Hypothesis {
  CauseSet causes;
  double weight = 0;
};

/// Something that is so or not so and costs something to change: a cover off, a gauge set up, the
/// engine hot, a tool fetched, the stop test proved.
struct Bit {
  double set_cost = 0;
  double clear_cost = 0;
  /// Bits that must be on for this one to be on: asking for it asks for them; taking one of them
  /// off takes this one off, at its clear_cost. No rings.
  std::vector<std::size_t> under;
};

enum class Access {
  open,
  out_of_reach,  ///< not here (tool missing, skipped): never proposed, but may be named as missing
  barred,        ///< must not be (safety) or is done: as if it did not exist
};

/// What is common to all that is done: its cost and the bits it asks for before it begins.
struct Work {
  double cost = 0;                ///< without the change of bits
  std::vector<std::size_t> on;    ///< bits asked on
  std::vector<std::size_t> off;   ///< bits asked off
  std::vector<std::size_t> undo;  ///< bits that are off afterwards, for nothing, and what is under
                                  ///< them: a setting lost, a proof no longer good
  Access access = Access::open;
};

/// A look that changes nothing and is made once: made again it would err the same way.
struct Check {
  Work work;
  std::vector<std::vector<double>> likelihood;  ///< [hypothesis][outcome], each row sums to 1
  std::vector<double> rest;  ///< the row of "something else"; may be empty if that has no weight
};

struct Mend {
  std::size_t cause = 0;
  double chance = 1;
};

/// Work that may mend, made at most once in a plan; it tells nothing by itself. One draw decides
/// for the whole job: where it mends a cause of chance 0.8 it also mends those of 0.9.
struct Correction {
  Work work;
  std::vector<Mend> mends;
  int order = 0;  ///< repair before adjusting: of two equally good ones the lower goes first
};

struct Situation {
  std::vector<Hypothesis> hypotheses;
  std::vector<Bit> bits;
  std::vector<std::size_t> bits_on;  ///< as things stand
  std::vector<Check> checks;
  std::vector<Correction> corrections;
  Work run;  ///< the complaint's own run: tells without error whether nothing is active any more
  double hand_over_cost = 0;  ///< of giving the job away, as things stand: it ends there
  bool proved = false;        ///< that run was made and was right
};

}  // namespace soot::plan
