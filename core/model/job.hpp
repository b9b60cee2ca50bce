// One complaint on one engine: what was told, seen, measured and done, in the order in which it
// happened. The same value comes out of the ledger and out of a job file.
#pragma once

#include "core/base/measure.hpp"
#include "core/base/problem.hpp"

#include <optional>
#include <string>
#include <vector>

namespace soot {

enum class CameUp { yes, no, doubtful };

/// How the confirming run went.
enum class Proof { cured, improved, unchanged, worse, not_tested };

struct Observation {
  std::string symptom;
  int cylinder = 0;  ///< 0 for an engine's symptom
  bool present = true;
  bool unsure = false;
  bool complaint = false;
  Place place;
  long line = 0;  ///< number of the ledger's line, or position in the file, rising with time
};

struct ReadingTaken {
  std::string quantity;
  int cylinder = 0;
  Measure value;
  std::optional<Measure> uncertainty;  ///< standard uncertainty
  CameUp came_up = CameUp::yes;
  Place place;
  long line = 0;
};

struct WorkDone {
  std::string correction;
  std::vector<int> cylinders;  ///< empty for engine scope
  std::string note;
  Place place;
  long line = 0;
};

struct ProvingRun {
  Proof result = Proof::not_tested;
  std::string note;
  long line = 0;
};

struct Truth {
  std::string cause;
  int cylinder = 0;
  std::string grade;
  int within = 0;  ///< of a case: how far down the ranking it may stand; 0 = not said
};

/// A job with known causes, for teaching.
struct CaseSheet {
  std::string title;
  std::string story;
  std::string route;   ///< what a good route would be; may be empty
  std::string source;  ///< the page a retold case was taken from; may be empty
  std::vector<Truth> truth;
};

struct EngineState {
  std::vector<std::string> covers_off;
  bool running = false;
  bool hot = false;
};

struct Job {
  std::string family;
  std::optional<std::string> history;
  std::string at;  ///< ISO 8601, may be empty
  std::vector<Observation> observations;
  std::vector<ReadingTaken> readings;
  std::vector<WorkDone> work;
  std::vector<ProvingRun> proofs;
  std::optional<std::vector<std::string>> tools;  ///< else the shop's own list
  EngineState state;
  std::optional<CaseSheet> sheet;
};

}  // namespace soot
