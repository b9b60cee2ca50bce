// case, family, knowledge, plugin: what there is to work with.
#include "core/base/text.hpp"
#include "core/cli/commands.hpp"
#include "core/report/cases.hpp"
#include "core/report/catalogue.hpp"
#include "core/report/json.hpp"
#include "core/workbench/case_run.hpp"
#include "core/workbench/figure_text.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <functional>
#include <map>

namespace soot::cli {
namespace {

template <class Entry>
std::vector<CatalogueLine> lines_of(const std::vector<Entry>& entries) {
  std::vector<CatalogueLine> out;
  for (const Entry& entry : entries)
    out.push_back({entry.id, entry.name, ""});
  return out;
}

std::string scope_word(Scope scope) {
  return scope == Scope::cylinder ? "of a cylinder" : "";
}

std::vector<CatalogueLine> quantity_lines(const Knowledge& knowledge) {
  std::vector<CatalogueLine> out;
  for (const Quantity& quantity : knowledge.quantities) {
    std::string about = std::string{quantity.unit.name};
    if (quantity.scope == Scope::cylinder) about += ", each cylinder";
    out.push_back({quantity.id, quantity.name, about});
  }
  return out;
}

std::vector<CatalogueLine> symptom_lines(const Knowledge& knowledge) {
  std::vector<CatalogueLine> out;
  for (const Symptom& symptom : knowledge.symptoms)
    out.push_back({symptom.id, symptom.name, scope_word(symptom.scope)});
  return out;
}

std::vector<CatalogueLine> cause_lines(const Knowledge& knowledge) {
  std::vector<CatalogueLine> out;
  for (const Cause& cause : knowledge.causes)
    out.push_back({cause.id, cause.name, scope_word(cause.scope)});
  return out;
}

Result<std::vector<CatalogueLine>> knowledge_lines(const Knowledge& knowledge,
                                                   const std::string& kind) {
  const std::map<std::string, std::function<std::vector<CatalogueLine>()>> kinds{
      {"symptom", [&] { return symptom_lines(knowledge); }},
      {"quantity", [&] { return quantity_lines(knowledge); }},
      {"cause", [&] { return cause_lines(knowledge); }},
      {"check", [&] { return lines_of(knowledge.checks); }},
      {"correction", [&] { return lines_of(knowledge.corrections); }},
      {"procedure", [&] { return lines_of(knowledge.procedures); }},
      {"cover", [&] { return lines_of(knowledge.covers); }},
      {"tool", [&] { return lines_of(knowledge.tools); }},
  };
  const auto found = kinds.find(kind);
  if (found != kinds.end()) return found->second();
  std::vector<std::string> words;
  for (const auto& [word, lines] : kinds)
    words.push_back(word);
  return fail(Kind::use, "'{}' is no kind of entry (expected one of {})", kind,
              fmt::join(words, ", "));
}

}  // namespace

Result<void> run(Session& session, const CaseList& request) {
  const CaseShelf shelf = shelf_of(session.surroundings().places.cases);
  session.terminal().answer(request.as_json ? to_json(shelf.titles)
                                            : to_text(shelf.titles, session.look()));
  if (has_errors(shelf.problems)) return tl::unexpected<Problems>(shelf.problems);
  return {};
}

Result<void> run(Session& session, const CaseRun& request) {
  const Result<const Bench*> bench = session.bench();
  if (!bench) return pass_on(bench);
  const Result<CaseReport> report =
      run_case(**bench, session.surroundings().places.cases, request.name);
  if (!report) return pass_on(report);
  session.terminal().answer(request.as_json ? to_json(*report) : to_text(*report, session.look()));
  return {};
}

Result<void> run(Session& session, const FamilyList& request) {
  const Result<const Bench*> bench = session.bench();
  if (!bench) return pass_on(bench);
  std::vector<CatalogueLine> lines;
  for (const Bench::Served& served : (*bench)->families())
    lines.push_back(
        {served.family.id, served.family.name,
         fmt::format("{} cylinder{}, plugin {}", served.family.cylinders,
                     served.family.cylinders == 1 ? "" : "s", served.family.plugin_id)});
  session.terminal().answer(request.as_json ? to_json("family", lines)
                                            : to_text(lines, session.look()));
  return {};
}

Result<void> run(Session& session, const FamilyShow& request) {
  const Result<const Bench*> bench = session.bench();
  if (!bench) return pass_on(bench);
  const Result<Engine> engine = (*bench)->engine(request.family);
  if (!engine) return pass_on(engine);
  SpecSheet sheet{engine->family, {}};
  for (const auto& [key, figure] : engine->family.figures)
    sheet.lines.push_back({key, print_figure(figure), figure.source});
  session.terminal().answer(request.as_json ? to_json(sheet) : to_text(sheet, session.look()));
  return {};
}

Result<void> run(Session& session, const KnowledgeList& request) {
  const Result<const Bench*> bench = session.bench();
  if (!bench) return pass_on(bench);
  const auto lines = knowledge_lines((*bench)->knowledge(), request.kind);
  if (!lines) return pass_on(lines);
  session.terminal().answer(request.as_json ? to_json(request.kind, *lines)
                                            : to_text(*lines, session.look()));
  return {};
}

Result<void> run(Session& session, const KnowledgeCheck&) {
  const Result<LoadedKnowledge> loaded = load_knowledge(session.surroundings().places.knowledge);
  if (!loaded) return pass_on(loaded);
  const Knowledge& knowledge = loaded->knowledge;
  session.terminal().answer(fmt::format(
      "sound: {} causes, {} symptoms, {} quantities, {} checks, {} corrections, {} procedures\n",
      knowledge.causes.size(), knowledge.symptoms.size(), knowledge.quantities.size(),
      knowledge.checks.size(), knowledge.corrections.size(), knowledge.procedures.size()));
  return {};
}

Result<void> run(Session& session, const PluginList&) {
  const Result<const Bench*> bench = session.bench();
  if (!bench) return pass_on(bench);
  std::vector<CatalogueLine> lines;
  for (const host::Manifest& manifest : (*bench)->plugins())
    lines.push_back({manifest.id, manifest.about, "version " + manifest.version});
  session.terminal().answer(to_text(lines, session.look()));
  return {};
}

}  // namespace soot::cli
