#include "core/base/text.hpp"
#include "core/guide/page_makers.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace soot {
namespace {

bool is_by_cylinder(const Knowledge& knowledge, const Check& check) {
  const auto each = [](const auto& list, const std::string& id) {
    return get_id(list, id).scope == Scope::cylinder;
  };
  return std::any_of(check.reads.begin(), check.reads.end(),
                     [&](const std::string& id) { return each(knowledge.quantities, id); }) ||
         std::any_of(check.answers.begin(), check.answers.end(),
                     [&](const std::string& id) { return each(knowledge.symptoms, id); });
}

// {lifter-depth} is filled in by `steps`, which knows the engine; here it is named, and so are the
// engines that a saying is for.
std::string generally(const Knowledge& knowledge, const Saying& saying) {
  std::string out;
  bool unsaid = false;  // the words for an engine without the figure
  for (const char c : saying.text) {
    if (c == '|') unsaid = true;
    if (c == '}') unsaid = false;
    if (c == '{')
      out += "(the family's ";
    else if (!unsaid)
      out += c == '}' ? ')' : c;
  }
  for (const std::string& id : saying.needs)
    out += fmt::format(" (Only with {}.)", feature_name(knowledge, id));
  for (const std::string& id : saying.without)
    out += fmt::format(" (Never with {}.)", feature_name(knowledge, id));
  return out;
}

// Steps are numbered; a caution stands before its step.
void add_steps(const Knowledge& knowledge, const Procedure& procedure, PageMaker& page) {
  page.section("Step by step");
  int number = 0;
  for (const Step& step : procedure.steps) {
    for (const std::string& id : step.cautions)
      page.line("", "CAUTION: " + get_id(knowledge.cautions, id).text);
    page.line(fmt::format("{:>2}.", ++number), generally(knowledge, step.saying));
  }
  page.section("What it means");
  for (const Saying& saying : procedure.means)
    page.line("", generally(knowledge, saying));
}

void add_procedure(const Knowledge& knowledge, const std::string& id, PageMaker& page) {
  if (!id.empty()) add_steps(knowledge, get_id(knowledge.procedures, id), page);
}

template <class Work>
void add_variants(const Knowledge& knowledge, const Work& work, PageMaker& page) {
  for (const WorkVariant& variant : work.variants) {
    page.section(fmt::format("With {}", feature_name(knowledge, variant.feature)));
    for (const std::string& id : variant.covers.value_or(std::vector<std::string>{}))
      page.line("off", get_id(knowledge.covers, id).name);
    for (const std::string& id : variant.tools.value_or(std::vector<std::string>{}))
      page.line(id, get_id(knowledge.tools, id).name);
    if (variant.sum) page.line("", "the sum for it: sootsayer sum " + *variant.sum);
    if (variant.procedure)
      page.line("", fmt::format("step by step: sootsayer knowledge show {}", *variant.procedure));
  }
}

// Whether this piece of work, on some engine, follows that procedure.
template <class Work>
bool follows(const Work& work, const std::string& procedure) {
  return work.procedure == procedure ||
         std::any_of(work.variants.begin(), work.variants.end(),
                     [&](const WorkVariant& variant) { return variant.procedure == procedure; });
}

// Entries of work that name this one.
template <class Select>
void add_users(const Knowledge& knowledge, const Select& uses, PageMaker& page) {
  page.section("Where it is used");
  for (const Check& check : knowledge.checks)
    if (uses(check)) page.line(check.id, "check: " + check.name);
  for (const Correction& correction : knowledge.corrections)
    if (uses(correction)) page.line(correction.id, "correction: " + correction.name);
}

}  // namespace

EntryPage page_of(const Shelf& shelf, const Check& check) {
  constexpr std::array<std::string_view, 4> skills{"", "anybody", "a mechanic", "a specialist"};
  const Knowledge& knowledge = shelf.knowledge;
  PageMaker page("check", check.id, check.name, "It tells: " + check.tells + ".");
  page.section("What it takes");
  page.line("time", minutes_words(check.minutes, is_by_cylinder(knowledge, check)));
  page.line("engine", state_words(knowledge, check.running, check.covers, check.hot, check.cold));
  page.line("who", std::string{skills.at(static_cast<std::size_t>(check.skill))});
  page.section("Tools");
  page.names(check.tools, knowledge.tools);
  page.features(knowledge, check.needs, check.without);
  page.cautions(knowledge, check.cautions);
  page.section("What it answers");
  page.names(check.answers, knowledge.symptoms);
  page.section("What it reads");
  page.names(check.reads, knowledge.quantities);
  page.section("Causes it speaks of");
  for (const Cause& cause : knowledge.causes) {
    const bool linked = std::any_of(cause.links.begin(), cause.links.end(), [&](const Link& link) {
      return names(check.answers, link.symptom);
    });
    const bool moved =
        std::any_of(cause.effects.begin(), cause.effects.end(),
                    [&](const Effect& effect) { return names(check.reads, effect.target); });
    if (linked || moved) page.line(cause.id, cause.name);
  }
  add_procedure(knowledge, check.procedure, page);
  add_variants(knowledge, check, page);
  page.sources(knowledge, {check.source});
  return page.take();
}

EntryPage page_of(const Shelf& shelf, const Correction& correction) {
  const Knowledge& knowledge = shelf.knowledge;
  const bool each = correction.scope == Scope::cylinder;
  PageMaker page("correction", correction.id, correction.name);
  page.section("What it mends");
  for (const Mend& mend : correction.mends)
    page.line(mend.cause, fmt::format("{}: cure {}", get_id(knowledge.causes, mend.cause).name,
                                      word_of(shelf.scale.cure, mend.cure)));
  page.section("What it takes");
  page.line("time", minutes_words(correction.minutes, each));
  page.line("engine", state_words(knowledge, correction.running, correction.covers, false, false));
  page.line("parts", std::string{parts_words(correction.parts_class)});
  page.section("Tools");
  page.names(correction.tools, knowledge.tools);
  page.features(knowledge, correction.needs, {});
  page.cautions(knowledge, correction.cautions);
  page.section("What must be looked at again");
  page.names(correction.touches, knowledge.quantities);
  page.names(correction.touches, knowledge.symptoms);
  page.section("What it can bring");
  page.names(correction.brings, knowledge.causes);
  add_procedure(knowledge, correction.procedure, page);
  add_variants(knowledge, correction, page);
  page.section("To enter it");
  if (!correction.sum.empty()) page.line("", "the sum for it: sootsayer sum " + correction.sum);
  page.line("", fmt::format("sootsayer done {}{}", correction.id, each ? " CYLINDER" : ""));
  page.sources(knowledge, {correction.source});
  return page.take();
}

EntryPage page_of(const Shelf& shelf, const Procedure& procedure) {
  PageMaker page("procedure", procedure.id, procedure.name);
  add_steps(shelf.knowledge, procedure, page);
  add_users(
      shelf.knowledge, [&](const auto& work) { return follows(work, procedure.id); }, page);
  page.sources(shelf.knowledge, {procedure.source});
  return page.take();
}

EntryPage page_of(const Shelf& shelf, const Caution& caution) {
  PageMaker page("caution", caution.id, caution.text);
  add_users(
      shelf.knowledge, [&](const auto& work) { return names(work.cautions, caution.id); }, page);
  for (const Procedure& procedure : shelf.knowledge.procedures)
    for (const Step& step : procedure.steps)
      if (names(step.cautions, caution.id)) {
        page.line(procedure.id, "procedure: " + procedure.name);
        break;
      }
  for (const Cause& cause : shelf.knowledge.causes)
    if (names(cause.cautions, caution.id)) page.line(cause.id, "cause: " + cause.name);
  page.sources(shelf.knowledge, {caution.source});
  return page.take();
}

EntryPage page_of(const Shelf& shelf, const Tool& tool) {
  PageMaker page(
      "tool", tool.id, tool.name,
      tool.at_hand ? "An ordinary home shop has it." : "An ordinary home shop does not have it.");
  add_users(
      shelf.knowledge, [&](const auto& work) { return names(work.tools, tool.id); }, page);
  return page.take();
}

EntryPage page_of(const Shelf& shelf, const Cover& cover) {
  PageMaker page("cover", cover.id, cover.name);
  page.section("What it takes");
  page.line("to open", duration(cover.open_minutes));
  page.line("to close", duration(cover.close_minutes));
  for (const CoverVariant& variant : cover.variants)
    page.line("", fmt::format("with {}: {}, {} to open, {} to close",
                              feature_name(shelf.knowledge, variant.feature), variant.name,
                              duration(variant.open_minutes), duration(variant.close_minutes)));
  page.section("What must be off before");
  page.names(cover.under, shelf.knowledge.covers);
  add_users(
      shelf.knowledge, [&](const auto& work) { return names(work.covers, cover.id); }, page);
  return page.take();
}

EntryPage page_of(const Shelf& shelf, const Feature& feature) {
  PageMaker page("feature", feature.id, feature.name);
  page.section("Families that have it");
  for (const Bench::Served& served : shelf.bench.families())
    if (served.family.has(feature.id)) page.line(served.family.id, served.family.name);
  page.section("What needs it");
  const auto add = [&](const auto& list, std::string_view kind) {
    for (const auto& entry : list)
      if (names(entry.needs, feature.id))
        page.line(entry.id, fmt::format("{}: {}", kind, entry.name));
  };
  add(shelf.knowledge.causes, "cause");
  add(shelf.knowledge.symptoms, "symptom");
  add(shelf.knowledge.checks, "check");
  add(shelf.knowledge.corrections, "correction");
  page.section("What it rules out");
  for (const Cause& cause : shelf.knowledge.causes)
    if (names(cause.without, feature.id)) page.line(cause.id, "cause: " + cause.name);
  return page.take();
}

EntryPage page_of(const Shelf& shelf, const Source& source) {
  PageMaker page("source", source.key, source.citation);
  page.section("Where it is cited");
  const auto add = [&](const auto& list, std::string_view kind) {
    for (const auto& entry : list) {
      const std::vector<std::string> parts = split(entry.source, ';');
      const bool cites = std::any_of(parts.begin(), parts.end(), [&](const std::string& part) {
        return trim(std::string_view{part}.substr(0, part.find(':'))) == source.key;
      });
      if (cites) page.line(entry.id, std::string{kind});
    }
  };
  add(shelf.knowledge.causes, "cause");
  add(shelf.knowledge.symptoms, "symptom");
  add(shelf.knowledge.quantities, "quantity");
  add(shelf.knowledge.checks, "check");
  add(shelf.knowledge.corrections, "correction");
  add(shelf.knowledge.procedures, "procedure");
  add(shelf.knowledge.cautions, "caution");
  return page.take();
}

}  // namespace soot
