// The lines of a job's record, as values. Every command that changes anything adds lines of these
// kinds; none is ever altered. A line crossed out stays, with the reason and the line that did it.
#pragma once

#include "core/model/job.hpp"

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace soot::ledger {

/// The complaint in the owner's words, what was done to the engine before, or both.
struct Told {
  std::string words;
  std::optional<std::string> history;
};

struct Saw {
  std::string symptom;
  int cylinder = 0;  ///< 0 for an engine's symptom, here and below
  bool present = true;
  bool unsure = false;
  bool complaint = false;
};

/// Kept as it was typed; `value` and `uncertainty` must come from read_measure.
struct Gauged {
  std::string quantity;
  int cylinder = 0;
  Measure value;
  std::optional<Measure> uncertainty;  ///< standard uncertainty
  CameUp came_up = CameUp::yes;
};

/// A check that cannot be made here.
struct Skipped {
  std::string check;
  std::string why;
};

struct RankedCause {
  std::string cause;
  int cylinder = 0;
  double probability = 0;
};

/// How the causes stood at the time, most probable first.
struct Ranked {
  std::vector<RankedCause> causes;
};

struct Move {
  std::string kind;  ///< check, correction, run, hand-over
  std::string id;
  std::vector<int> cylinders;
  double minutes = 0;
};

/// What was advised at the time, best first.
struct Proposed {
  std::string verdict;
  std::vector<Move> moves;
};

/// A correction made.
struct Done {
  std::string correction;
  std::vector<int> cylinders;  ///< empty for engine scope
  std::string note;            ///< what was set, from what to what
  std::string parts;           ///< parts used, in free words
  std::optional<double> minutes;
};

/// The confirming run.
struct Proved {
  Proof result = Proof::not_tested;
  std::string note;
};

struct Closed {
  std::vector<Truth> causes;  ///< what it was, as far as it is known
  std::string note;
};

struct Reopened {
  std::string why;
};

struct Noted {
  std::string words;
};

/// Crosses out another line of the same job.
struct Struck {
  long line = 0;
  std::string reason;
};

using Payload = std::variant<Told, Saw, Gauged, Skipped, Ranked, Proposed, Done, Proved, Closed,
                             Reopened, Noted, Struck>;

/// The words for the kinds, in the order of Payload.
inline constexpr std::array<std::string_view, std::variant_size_v<Payload>> kinds{
    "told", "saw",    "gauged", "skipped",  "ranked", "proposed",
    "done", "proved", "closed", "reopened", "noted",  "struck"};

inline std::string_view kind_of(const Payload& payload) {
  return kinds.at(payload.index());
}

/// What crossed a line out.
struct CrossedOut {
  long by = 0;  ///< number of the line that did it
  std::string at;
  std::string reason;
};

struct Entry {
  long line = 0;   ///< rises through the whole ledger, over all jobs
  std::string at;  ///< ISO 8601, UTC
  Payload payload;
  std::optional<CrossedOut> crossed_out;
};

}  // namespace soot::ledger
