#include "core/workbench/family_check.hpp"

#include "core/base/append.hpp"
#include "core/base/text.hpp"
#include "core/calc/contradictions.hpp"
#include "core/calc/derived.hpp"
#include "core/knowledge/family_reader.hpp"
#include "core/knowledge/figure_keys.hpp"
#include "core/workbench/law_of.hpp"
#include "core/workbench/network_builder.hpp"

#include <algorithm>
#include <utility>

namespace soot {
namespace {

/// What two standard uncertainties of one reading leave undecided; 0 if nobody reads the figure.
double instrument_of(const Knowledge& knowledge, const Figure& figure) {
  for (const Quantity& quantity : knowledge.quantities)
    if (quantity.figure == figure.key && !quantity.is_coarse()) return 2 * quantity.instrument;
  return 0;
}

Problems too_fine(const Knowledge& knowledge, const Family& family) {
  Problems problems;
  for (const auto& [key, figure] : family.figures) {
    const double least = instrument_of(knowledge, figure);
    if (!figure.tolerance || *figure.tolerance >= least) continue;
    const auto words = [&](double value) {
      return fmt::format("{:.3g} {}", value / figure.unit.factor, figure.unit.name);
    };
    Problem problem = make_problem(
        Kind::data, "{}: a tolerance of {} is finer than its instrument (expected {} or more)", key,
        words(*figure.tolerance), words(least));
    problem.place = figure.place;
    problems.push_back(std::move(problem));
  }
  return problems;
}

template <class Entry>
void add_features(std::vector<std::string>& words, const Entries<Entry>& entries) {
  for (const Entry& entry : entries)
    words.insert(words.end(), entry.needs.begin(), entry.needs.end());
}

/// Those that anything asks for.
std::vector<std::string> known_features(const Knowledge& knowledge) {
  std::vector<std::string> words;
  for (const FigureKey& known : known_figures())
    if (!known.needs.empty()) words.emplace_back(known.needs);
  add_features(words, knowledge.causes);
  add_features(words, knowledge.symptoms);
  add_features(words, knowledge.checks);
  add_features(words, knowledge.corrections);
  for (const Cause& cause : knowledge.causes)
    words.insert(words.end(), cause.without.begin(), cause.without.end());
  for (const Check& check : knowledge.checks)
    words.insert(words.end(), check.without.begin(), check.without.end());
  return words;
}

// A feature may be the family's own; one that is nearly a known one is a slip of the pen.
Problems misspelt_features(const Knowledge& knowledge, const Family& family) {
  const std::vector<std::string> known = known_features(knowledge);
  Problems problems;
  for (const std::string& feature : family.features) {
    if (std::find(known.begin(), known.end(), feature) != known.end()) continue;
    const std::string near = did_you_mean(feature, known);
    if (near.empty()) continue;
    Problem problem = make_problem(Kind::data, "{} is no feature known here{}", feature, near);
    problem.place = family.place;
    problems.push_back(std::move(problem));
  }
  return problems;
}

// The least a shop needs for timing, by the order in which it is asked for.
std::vector<std::string> timing_gaps(const Engine& engine) {
  std::vector<std::string> gaps;
  const auto need = [&](const char* key, const char* for_what) {
    if (!engine.family.nominal(key)) gaps.push_back(fmt::format("{} ({})", key, for_what));
  };
  need("static-timing", "what the spill angle should be");
  if (engine.law == nullptr) need("lift-rate", "depth to degrees; or a [lift] table");
  if (engine.family.has("individual-pumps")) need("lifter-depth", "what the depth should be");
  if (engine.family.has("lifters")) need("lifter-thread-pitch", "turns and flats of the screw");
  if (!engine.family.nominal("pump-teeth")) need("crank-teeth", "what a tooth out looks like");
  return gaps;
}

bool is_read(const Knowledge& knowledge, const std::string& quantity) {
  return std::any_of(knowledge.checks.begin(), knowledge.checks.end(), [&](const Check& check) {
    return std::find(check.reads.begin(), check.reads.end(), quantity) != check.reads.end();
  });
}

FamilyFindings survey(const Engine& engine, std::size_t figures) {
  FamilyFindings found;
  found.family = engine.family;
  found.figures = figures;
  Engine full = engine;
  full.family = calc::completed(engine.family, engine.law.get());
  for (const FigureKey& known : known_figures()) {
    const bool applies = known.needs.empty() || engine.family.has(known.needs);
    if (applies && full.family.figure(std::string{known.key}) == nullptr)
      found.left_out.emplace_back(known.key);
  }
  for (const Quantity& quantity : engine.knowledge.quantities)
    if (is_read(engine.knowledge, quantity.id) && !quantity.is_coarse() &&
        !nominal_of(full, quantity))
      found.compare_only.push_back(quantity.id);
  found.timing_gaps = timing_gaps(full);
  return found;
}

}  // namespace

Result<FamilyFindings> findings_in(const ReadFamily& read,
                                   const std::shared_ptr<const calc::LiftLaw>& own_law,
                                   const Knowledge& common) {
  Engine engine{read.family, nullptr, {}};
  Problems problems;
  const auto law = law_of(read.family, own_law);
  if (law)
    engine.law = *law;
  else
    append(problems, law.error());
  append(problems, calc::contradictions(engine.family, engine.law.get()));
  if (auto danger = calc::plunger_meets_head(engine.family, engine.law.get()))
    problems.push_back(std::move(*danger));
  append(problems, too_fine(common, engine.family));
  append(problems, misspelt_features(common, engine.family));
  Result<Knowledge> knowledge = join(common, read.amendments, read.own, engine.family);
  if (knowledge)
    engine.knowledge = std::move(*knowledge);
  else
    append(problems, knowledge.error());
  if (!problems.empty()) return tl::unexpected<Problems>(std::move(problems));
  return survey(engine, read.family.figures.size());
}

Result<FamilyFindings> check_family(const Bench& bench, const std::filesystem::path& file) {
  const Result<ReadFamily> read = load_family(file, bench.scale());
  if (!read) return pass_on(read);
  return findings_in(*read, bench.own_law(read->family.id), bench.knowledge());
}

}  // namespace soot
