// What an experienced hand knows, as values: read from knowledge/ (and from a family's own tables)
// by core/knowledge, turned into a network by core/workbench. Ids are kebab-case and never reused.
// Words of the scale are already numbers here; `source` keeps what the file cites.
#pragma once

#include "core/base/measure.hpp"
#include "core/base/problem.hpp"
#include "core/model/entries.hpp"

#include <array>
#include <cstdlib>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace soot {

enum class Scope { engine, cylinder };

/// An engine term: what causes do to the engine, before any instrument sees it.
struct Term {
  std::string id;
  std::string name;
  Dimension dimension = Dimension::number;
  Place place;
  bool operator==(const Term&) const = default;
};

struct Symptom {
  std::string id;
  std::string name;
  Scope scope = Scope::engine;
  std::string ask;                        ///< the question put to a person
  std::optional<std::string> special_of;  ///< its report silences the general one's
  std::vector<std::string> measured_by;   ///< quantities whose reading silences it
  double leak = 0;
  double missed = 0;
  double imagined = 0;
  bool only_cold = false;     ///< shows on a cold engine: its proving run starts from cold
  bool will_not_run = false;  ///< while it is there nothing can be looked at on a running engine
  std::vector<std::string> words;  ///< how a mechanic says it, for `find`
  std::vector<std::string> needs;  ///< features of the engine without which it cannot be
  std::string source;
  Place place;
  bool operator==(const Symptom&) const = default;
};

/// How a quantity hears a term that geometry does not carry to it: so much per unit of the term.
struct Hearing {
  std::string term;
  double per_unit = 0;            ///< in the quantity's model unit, or
  bool share_of_nominal = false;  ///< in percent of the nominal value
  bool operator==(const Hearing&) const = default;
};

/// A coarse quantity hears too much at once for its figure to be weighed: its reading says no more
/// than whether a symptom is there.
struct Showing {
  std::string symptom;              ///< of the quantity's own scope
  bool above = false;               ///< there if above the reference by `margin`; else if below it
  double margin = 0;                ///< model unit of the quantity, or
  bool share_of_reference = false;  ///< percent of the reference
  bool of_others = false;           ///< reference: median of the other cylinders; else the nominal
  bool operator==(const Showing&) const = default;
};

struct Quantity {
  std::string id;
  std::string name;
  Scope scope = Scope::engine;
  Dimension dimension = Dimension::number;
  Unit unit = model_unit(Dimension::number);  ///< as a mechanic reads it
  int decimals = 2;
  std::string figure;           ///< the family's figure that gives the nominal value; may be empty
  std::optional<double> usual;  ///< nominal where the family has no figure and one holds for all
  std::string geometry;         ///< rule of core/calc: depth, base-depth, spill, ...; may be empty
  std::vector<Hearing> hears;
  std::vector<Showing> shows;   ///< not empty: coarse, and never a reading of the network
  double instrument = 0;        ///< standard uncertainty of one reading, model unit
  double instrument_share = 0;  ///< the same, percent of the reading; the two add in squares
  double spread = 0;            ///< sound engines, standard deviation, model unit
  double spread_share = 0;      ///< the same, percent of the nominal
  double least = 0;             ///< below and above these a typed value is absurd
  double most = 0;
  double wrong_offset = 0;  ///< sd of the offset of a wrong instrument, model unit
  std::vector<std::string> words;
  std::string source;
  Place place;

  bool is_coarse() const { return !shows.empty(); }
  bool operator==(const Quantity&) const = default;
};

/// P(symptom fired | grade), one a grade of the cause.
struct Link {
  std::string symptom;
  std::vector<double> strength;
  /// Of a cylinder's cause, on an engine that has no other cylinder; empty: the same.
  std::vector<double> alone;
  std::string source;
  Place place;
  bool operator==(const Link&) const = default;
};

/// What a cause does to a term, or to a quantity directly. One entry a grade; a grade that does
/// nothing has mean 0 and sd 0.
struct Effect {
  std::string target;             ///< id of a term or of a quantity
  bool share_of_nominal = false;  ///< percent of the quantity's nominal value
  /// Multiples of a figure of the family: "tooth" (degrees of one tooth), "lash" (the whole train
  /// at its limit: degrees, or on a length what it lifts at top centre), "rack-tooth" (mm of one
  /// tooth of the rack); empty = in the target's model unit.
  std::string times;
  Dimension written = Dimension::number;  ///< of the sizes as the file has them
  std::vector<double> mean;
  std::vector<double> sd;
  std::vector<double> scatter;  ///< engine-wide causes: own scatter on each cylinder; may be empty
  std::string source;
  Place place;
  bool operator==(const Effect&) const = default;
};

struct Cause {
  std::string id;
  std::string name;
  std::string system;  ///< fuel supply, pump, nozzle, timing, governor, air, compression, ...
  Scope scope = Scope::engine;
  std::string about;                     ///< what it is and does
  std::string not_about;                 ///< what it does not do, where that parts it; may be empty
  std::string unparted;                  ///< why nothing parts it from what looks like it, if so
  std::vector<std::string> grades;       ///< at least one; `present` if the file names none
  std::vector<std::string> grade_names;  ///< as a person reads them
  /// prior[h][g - 1] of one instance, by `histories` of words.hpp.
  std::array<std::vector<double>, 5> prior;
  std::vector<Link> links;
  std::vector<Effect> effects;
  std::vector<std::string> corrections;
  std::vector<std::string> cautions;
  std::vector<std::string> needs;    ///< features an engine must have to have this cause
  std::vector<std::string> without;  ///< features that rule it out
  std::string source;
  Place place;
  bool operator==(const Cause&) const = default;
};

struct Minutes {
  double set_up = 0;
  double each = 0;  ///< per cylinder; for engine scope added once
  bool operator==(const Minutes&) const = default;
};

enum class Running { stopped, cranking, running };

/// What must be proved before the engine is turned by power or run. Shut by work, a history or a
/// finding; opened by its proof, made afterwards.
struct Gate {
  std::string id;
  std::string name;
  Running before = Running::cranking;      ///< cranking guards running too
  std::vector<std::string> after_caution;  ///< corrections with one of these shut it
  std::vector<std::string> after_history;
  std::vector<std::string> after_found;  ///< symptoms
  std::string ask;                       ///< "first prove that it can be stopped"
  std::string also;                      ///< what else lies ready; may be empty
  std::string prove;                     ///< check; empty: nothing proves it, so that it only warns
  std::string within;  ///< figure that the proof's readings must not pass; may be empty
  std::vector<std::string> needs;
  std::string source;
  Place place;
  bool operator==(const Gate&) const = default;
};

/// What a check or correction takes on an engine with a feature, in the place of what it takes
/// elsewhere; what is left out stays.
struct WorkVariant {
  std::string feature;
  std::optional<std::vector<std::string>> covers = {};
  std::optional<std::vector<std::string>> tools = {};
  std::optional<std::string> sum = {};
  std::optional<std::string> procedure = {};
  bool operator==(const WorkVariant&) const = default;
};

struct Check {
  std::string id;
  std::string name;
  std::string tells;
  Running running = Running::stopped;
  std::vector<std::string> covers;  ///< must be off: ids of covers
  bool hot = false;
  bool cold = false;
  Minutes minutes;
  std::vector<std::string> tools;
  std::vector<std::string> answers;  ///< symptoms
  std::vector<std::string> reads;    ///< quantities
  int skill = 1;
  std::vector<std::string> cautions;
  bool asks_history = false;  ///< nothing to ask once the history is told
  std::string procedure;      ///< may be empty
  std::vector<WorkVariant> variants;
  std::vector<std::string> needs;
  std::vector<std::string> without;
  std::string source;
  Place place;
  bool operator==(const Check&) const = default;
};

struct Mend {
  std::string cause;
  double cure = 1;  ///< chance that the work cures it
  bool operator==(const Mend&) const = default;
};

struct Correction {
  std::string id;
  std::string name;
  Scope scope = Scope::engine;  ///< cylinder: done cylinder by cylinder
  std::vector<Mend> mends;
  Running running = Running::stopped;
  std::vector<std::string> covers;
  Minutes minutes;
  int parts_class = 0;  ///< 0 nothing, 1 consumables, 2 minor, 3 matched set, 4 machining
  std::vector<std::string> tools;
  std::vector<std::string> touches;  ///< quantities and symptoms whose earlier lines no longer hold
  std::vector<std::string> brings;   ///< causes that the work itself can bring
  int order = 0;                     ///< repair before adjusting: lower first
  std::string sum;                   ///< the arithmetic that belongs to it; may be empty
  std::vector<std::string> cautions;
  std::string procedure;
  std::vector<WorkVariant> variants;
  std::vector<std::string> needs;
  std::string source;
  Place place;
  bool operator==(const Correction&) const = default;
};

/// Read on engines with all of `needs` and none of `without`. In the text {figure-key} stands for a
/// figure of the family, {figure-key|words} for the words where it has none.
struct Saying {
  std::string text;
  std::vector<std::string> needs = {};
  std::vector<std::string> without = {};
  bool operator==(const Saying&) const = default;
};

struct Step {
  Saying saying;
  std::vector<std::string> cautions = {};  ///< printed before it
  bool operator==(const Step&) const = default;
};

struct Procedure {
  std::string id;
  std::string name;
  std::vector<Step> steps;
  std::vector<Saying> means;  ///< what the result would mean
  std::string source;
  Place place;
  bool operator==(const Procedure&) const = default;
};

struct Caution {
  std::string id;
  std::string text;
  std::vector<std::string> with_any;  ///< of these features; empty: every engine
  std::string source;
  Place place;
  bool operator==(const Caution&) const = default;
};

/// A cover as it is on an engine with a feature.
struct CoverVariant {
  std::string feature;
  std::string name;
  double open_minutes = 0;
  double close_minutes = 0;
  bool operator==(const CoverVariant&) const = default;
};

struct Cover {
  std::string id;
  std::string name;
  double open_minutes = 0;
  double close_minutes = 0;
  std::vector<std::string> under;  ///< covers that must be off before it
  std::vector<CoverVariant> variants;
  Place place;
  bool operator==(const Cover&) const = default;
};

struct Tool {
  std::string id;
  std::string name;
  bool at_hand = true;  ///< in an ordinary home shop
  Place place;
  bool operator==(const Tool&) const = default;
};

/// What an engine may have or be: the vocabulary of `needs`, `without` and a family's `features`.
struct Feature {
  std::string id;
  std::string name;
  Place place;
  bool operator==(const Feature&) const = default;
};

/// Words and phrases that a mechanic says for the same thing.
struct Synonyms {
  std::vector<std::string> words;  ///< the first stands for all; it may be empty: says nothing
  Place place;
  bool operator==(const Synonyms&) const = default;
};

struct Source {
  std::string key;
  std::string citation;
  Place place;
  bool operator==(const Source&) const = default;
};

struct Knowledge {
  Entries<Term> terms;
  Entries<Symptom> symptoms;
  Entries<Quantity> quantities;
  Entries<Cause> causes;
  Entries<Check> checks;
  Entries<Correction> corrections;
  Entries<Procedure> procedures;
  Entries<Caution> cautions;
  Entries<Gate> gates;
  Entries<Cover> covers;
  Entries<Tool> tools;
  Entries<Feature> features;
  Entries<Synonyms> synonyms;
  Entries<Source> sources;
  std::array<double, 5> history_prior{};
  bool operator==(const Knowledge&) const = default;
};

/// The entry of a list with this id, or nothing.
template <class Entry>
const Entry* find_id(const Entries<Entry>& list, std::string_view id) {
  for (const Entry& entry : list)
    if (entry.id == id) return &entry;
  return nullptr;
}

/// The same for an id that is known to be there (the loader checked it); ends the program if not.
template <class Entry>
const Entry& get_id(const Entries<Entry>& list, std::string_view id) {
  const Entry* found = find_id(list, id);
  if (found == nullptr) std::abort();
  return *found;
}

template <class Entry>
std::vector<std::string> ids_of(const Entries<Entry>& list) {
  std::vector<std::string> ids;
  for (const Entry& entry : list)
    ids.push_back(entry.id);
  return ids;
}

}  // namespace soot
