// What the planner answers: what to say (verdict) and the moves in order of what the job is
// expected to cost if it begins with them.
//
// Every expected cost is that of a plan that can be carried out, so it is on the safe side:
// planning again after each step only makes it less, if the situation is true.
#pragma once

#include "core/plan/situation.hpp"

#include <optional>
#include <vector>

namespace soot::plan {

enum class MoveKind { run, check, correction, hand_over };

struct Move {
  MoveKind kind = MoveKind::hand_over;
  std::size_t index = 0;  ///< into checks or corrections; 0 otherwise
  bool operator==(const Move&) const = default;
};

enum class Verdict {
  look,       ///< the best move is a check
  correct,    ///< a correction, though some check would still pay, now or after it
  enough,     ///< a correction, and no check pays
  prove,      ///< the complaint's own run
  stuck,      ///< two groups of causes remain, nothing at hand parts them, guessing is dear
  hand_over,  ///< nothing is worth its cost
  cured,      ///< proved: nothing left to do, no proposals
};

/// What a check would part: causes by number, at most three a side, the pair it parts best first
/// on each side. Empty if at most one cause has more than a fiftieth of the weight.
struct Parting {
  CauseSet one;
  CauseSet other;
};

struct Proposal {
  Move move;
  double own_cost = 0;
  double change_cost = 0;             ///< of the bits it asks to be changed first
  std::vector<std::size_t> put_on;    ///< those bits, ascending
  std::vector<std::size_t> take_off;  ///< likewise
  double expected_cost = 0;           ///< of the whole job if it begins with this move
  /// What the job would cost more without this move: best other move less this one. Below 0 for
  /// every move but the best.
  double saving = 0;
  double saving_over_not_looking = 0;  ///< against the best plan without any check
  double mends = 0;                    ///< corrections: chance that it mends something
  double cures = 0;                    ///< corrections: chance that nothing is active afterwards
  Parting parts;                       ///< checks only
};

/// One of the groups of hypotheses that are stuck with each other: those for which, if known, the
/// job would begin with the same correction.
struct Group {
  std::size_t correction = 0;
  double weight = 0;
  std::vector<std::size_t> hypotheses;  ///< heaviest first
};

struct Stuck {
  Group one;  ///< the heavier
  Group other;
  std::optional<std::size_t> parted_by;  ///< the check out of reach that would pay most
  double would_save = 0;  ///< by that check, if it came at the cost the situation gives it
};

struct Answer {
  Verdict verdict = Verdict::hand_over;
  /// Best first. Checks only if they pay: what is done next depends on their outcome, and the plan
  /// with them costs less than the best plan without any check. Never a move that is not open.
  std::vector<Proposal> proposals;
  double cost_without_looking = 0;  ///< the best plan without any check
  double something_else = 0;        ///< weight of what no hypothesis covers
  std::optional<Stuck> stuck;       ///< with verdict stuck
  int deep = 1;                     ///< moves looked ahead for the foremost proposals
  std::size_t work = 0;             ///< spent, in the unit of Options::work
};

}  // namespace soot::plan
