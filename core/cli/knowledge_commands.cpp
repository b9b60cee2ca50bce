// knowledge list, show, find, check: what the program knows, as something to read and to tend.
#include "core/base/text.hpp"
#include "core/cli/commands.hpp"
#include "core/guide/finder.hpp"
#include "core/guide/pages.hpp"
#include "core/guide/review.hpp"
#include "core/report/catalogue.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <filesystem>
#include <functional>
#include <limits>
#include <map>

namespace soot::cli {
namespace {

template <class Entry>
std::vector<CatalogueLine> lines_of(const Entries<Entry>& entries) {
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

std::vector<CatalogueLine> caution_lines(const Knowledge& knowledge) {
  std::vector<CatalogueLine> out;
  for (const Caution& caution : knowledge.cautions)
    out.push_back({caution.id, caution.text, ""});
  return out;
}

std::vector<CatalogueLine> source_lines(const Knowledge& knowledge) {
  std::vector<CatalogueLine> out;
  for (const Source& source : knowledge.sources)
    out.push_back({source.key, source.citation, ""});
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
      {"caution", [&] { return caution_lines(knowledge); }},
      {"term", [&] { return lines_of(knowledge.terms); }},
      {"feature", [&] { return lines_of(knowledge.features); }},
      {"source", [&] { return source_lines(knowledge); }},
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

// Places as a person beside the folder would write them: "knowledge/causes/gears.toml".
void shorten(Place& place, const std::filesystem::path& knowledge) {
  const std::string above = knowledge.parent_path().string() + "/";
  const std::string& file = place.file;
  if (above.size() > 1 && file.starts_with(above)) place.file = file.substr(above.size());
}

}  // namespace

Result<void> run(Session& session, const KnowledgeList& request) {
  const Result<const Bench*> bench = session.bench();
  if (!bench) return pass_on(bench);
  const auto lines = knowledge_lines(whole_knowledge(**bench), request.kind);
  if (!lines) return pass_on(lines);
  session.terminal().answer(request.as_json ? to_json(request.kind, *lines)
                                            : to_text(*lines, session.look()));
  return {};
}

Result<void> run(Session& session, const KnowledgeShow& request) {
  const Result<const Bench*> bench = session.bench();
  if (!bench) return pass_on(bench);
  const Result<std::vector<EntryPage>> pages = pages_of(**bench, request.id);
  if (!pages) return pass_on(pages);
  session.terminal().answer(request.as_json ? to_json(*pages) : to_text(*pages, session.look()));
  return {};
}

Result<void> run(Session& session, const KnowledgeFind& request) {
  const Result<const Bench*> bench = session.bench();
  if (!bench) return pass_on(bench);
  const Knowledge knowledge = whole_knowledge(**bench);
  const std::string words = fmt::format("{}", fmt::join(request.words, " "));
  std::vector<FoundLine> lines;
  for (const Found& found : Finder{knowledge}.find(words))
    lines.push_back({found.kind, found.id, found.name, found.score});
  if (request.as_json) {
    session.terminal().answer(to_json(words, lines));
    return {};
  }
  if (lines.empty())
    return fail(Kind::use,
                "nothing in the knowledge sounds like '{}' (expected other words, or "
                "list what there is: sootsayer knowledge list symptom)",
                words);
  session.terminal().answer(to_text(lines, session.look()));
  return {};
}

Result<void> run(Session& session, const KnowledgeCheck& request) {
  constexpr std::size_t most_notes = 12;  // of each topic, unless all are asked for
  const std::filesystem::path& folder = session.surroundings().places.knowledge;
  const Result<const Bench*> bench = session.bench_from_files();
  if (!bench) {
    if (request.as_json) session.terminal().answer(to_json(KnowledgeReview{}, bench.error()));
    return pass_on(bench);
  }
  Result<KnowledgeReview> review = review_of(**bench);
  if (!review) return pass_on(review);
  for (KnowledgeReview::Note& note : review->notes)
    shorten(note.place, folder);
  const std::size_t most = request.all ? std::numeric_limits<std::size_t>::max() : most_notes;
  session.terminal().answer(request.as_json ? to_json(*review, {})
                                            : to_text(*review, most, session.look()));
  return {};
}

}  // namespace soot::cli
