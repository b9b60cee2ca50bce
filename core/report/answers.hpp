// What the program answers, ready to be shown: names beside ids, probabilities beside grades.
// Filled by core/workbench, printed by the writers of this folder; the JSON shapes follow these one
// to one.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace soot {

/// cylinder 0 = the whole engine.
struct GradeChance {
  std::string id;
  std::string name;
  double probability = 0;
};

struct CauseLine {
  std::string id;
  std::string name;
  int cylinder = 0;
  std::string quantity;  ///< of a wrong instrument: what it reads; else empty
  double probability = 0;
  std::vector<GradeChance> grades;
  double of_likeliest = 0;  ///< by cause: probability of the one cylinder named
  double of_next = 0;       ///< by cause: of the likeliest other cylinder
};

struct NotListedLine {
  std::string symptom;
  std::string name;
  int cylinder = 0;
  double probability = 0;
};

struct ExplanationLine {
  struct Part {
    std::string id, name, grade, grade_name;
    int cylinder = 0;
  };
  double probability = 0;
  std::vector<Part> causes;
};

/// One piece of evidence, in words.
struct EvidenceName {
  bool is_reading = false;
  std::string id;
  std::string name;
  int cylinder = 0;
  std::string said;  ///< "present", "absent", "29.41 mm"
};

struct WorstFitLine {
  EvidenceName evidence;
  double probability = 0;
};

/// Does the order hold when the knowledge's priors and strengths are off?
struct StabilityLine {
  /// A cause's prior, or its strength on a symptom (else empty).
  struct Hinge {
    std::string cause, symptom;
  };
  double factor = 2;
  std::size_t draws = 0;
  double stays_first = 0;
  double stays_in_three = 0;
  std::vector<Hinge> hinges;  ///< each alone, off by the factor, lets another cause come first
};

struct RankAnswer {
  std::string family;
  std::string family_name;
  bool exact = true;
  double error_bound = 0;
  std::optional<std::string> sampled;  ///< estimated by random walks, and why
  double standard_error = 0;           ///< of the estimates, the largest
  bool impossible = false;             ///< what was entered cannot happen under the knowledge
  std::optional<std::string> known_history;
  std::vector<std::pair<std::string, double>> history;
  std::vector<CauseLine> causes;    ///< instances, most probable first
  std::vector<CauseLine> by_cause;  ///< in any cylinder; the likeliest one named
  std::vector<NotListedLine> not_listed;
  std::vector<ExplanationLine> explanations;
  double log10_evidence = 0;
  std::optional<WorstFitLine> worst_fit;
  std::optional<StabilityLine> stability;
  std::vector<std::string> remarks;
};

/// Positive speaks for the cause. Natural log-odds; shown as a factor on the odds.
struct WeightLine {
  EvidenceName evidence;
  double log_odds = 0;
};

struct WeighAnswer {
  std::string family;
  std::string cause;
  std::string name;
  std::string about;
  std::string not_about;
  int cylinder = 0;
  double prior = 0;
  double probability = 0;
  std::vector<WeightLine> lines;  ///< heaviest first, either way
  std::vector<std::string> remarks;
};

enum class Verdict { look, correct, enough, prove, stuck, hand_over, cured };

struct ProposalLine {
  enum class Kind { check, correction, run, hand_over };
  struct Suspect {
    std::string cause, name;
    int cylinder = 0;
  };
  Kind kind = Kind::check;
  std::string id;
  std::string name;
  std::vector<int> cylinders;
  double minutes = 0;
  double opening_minutes = 0;
  double cost = 0;                     ///< expected minutes' worth of the plan that begins so
  double saving = 0;                   ///< against the best plan without it
  double saving_over_not_looking = 0;  ///< of a check: against the best plan without any check
  double price = 0;                    ///< of this move alone: work, parts, what it opens
  double mends = 0;                    ///< of a correction: chance that it mends something
  std::vector<Suspect> parts;          ///< what it would part from what
  std::vector<std::string> cautions;   ///< texts
  std::vector<std::string> tools;
};

struct NextAnswer {
  std::string family;
  Verdict verdict = Verdict::look;
  std::vector<ProposalLine> proposals;  ///< best first
  double not_listed = 0;                ///< weight of "something else"
  std::vector<std::string> remarks;
};

std::string_view name_of(Verdict verdict);
std::string_view name_of(ProposalLine::Kind kind);

}  // namespace soot
