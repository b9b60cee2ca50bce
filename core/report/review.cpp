#include "core/report/review.hpp"

#include "core/base/text.hpp"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>

namespace soot {
namespace {

using Json = nlohmann::ordered_json;

std::string counted(std::size_t number, std::string kind) {
  if (number == 1) return "1 " + kind;
  if (kind.ends_with('y')) kind.replace(kind.size() - 1, 1, "ie");
  return fmt::format("{} {}s", number, kind);
}

void add_notes(const KnowledgeReview& review, std::size_t most, const Look& look,
               std::string& out) {
  for (std::size_t begin = 0; begin < review.notes.size();) {
    const std::string& topic = review.notes[begin].topic;
    std::size_t end = begin;
    while (end < review.notes.size() && review.notes[end].topic == topic)
      ++end;
    out += "\n" + strong(look, fmt::format("{} ({})", topic, end - begin)) + "\n";
    for (std::size_t i = begin; i < std::min(end, begin + most); ++i) {
      Problem note = make_problem(Kind::data, "{}", review.notes[i].text);
      note.place = review.notes[i].place;
      note.place.column = 0;
      out += fold(to_string(note), look.width, "  ", "    ") + "\n";
    }
    if (end - begin > most) out += fmt::format("  and {} more (--all)\n", end - begin - most);
    begin = end;
  }
}

void add_expected(const KnowledgeReview& review, const Look& look, std::string& out) {
  if (review.expected.empty()) return;
  out += "\n" + strong(look, "Causes expected before anything is known (share of it gross)") + "\n";
  constexpr std::size_t family_width = 13, least_width = 12;
  std::string head(family_width, ' ');
  std::string rows, family;
  for (const KnowledgeReview::Expected& cell : review.expected) {
    if (cell.family != family)
      rows += fmt::format("{}{:<{}}", rows.empty() ? "" : "\n", cell.family, family_width);
    family = cell.family;
    const std::size_t width = std::max(least_width, cell.history.size() + 1);
    if (family == review.expected.front().family)
      head += fmt::format("{:>{}}", cell.history, width);
    rows += fmt::format("{:>{}}", fmt::format("{:.2f} {:>2.0f} %", cell.causes, cell.gross * 100),
                        width);
  }
  out += head + "\n" + rows + "\n";
}

}  // namespace

std::string to_text(const KnowledgeReview& review, std::size_t most, const Look& look) {
  std::string counts = "sound:";
  for (const auto& [kind, number] : review.counts)
    counts += fmt::format("{} {}", counts.ends_with(':') ? "" : ",", counted(number, kind));
  std::string out = fold(counts, look.width, "", "  ") + "\n";
  add_notes(review, most, look, out);
  add_expected(review, look, out);
  return plain(look, out);
}

std::string to_json(const KnowledgeReview& review, const Problems& errors) {
  Json out{{"format", "sootsayer.knowledge-check/1"}, {"sound", !has_errors(errors)}};
  const auto at = [](const Place& place) {
    return Json{{"file", place.file.text()}, {"line", place.line}};
  };
  out["errors"] = Json::array();
  for (const Problem& error : errors) {
    Json entry = at(error.place);
    entry["text"] = error.text;
    out["errors"].push_back(entry);
  }
  out["counts"] = Json::object();
  for (const auto& [kind, number] : review.counts)
    out["counts"][kind] = number;
  out["notes"] = Json::array();
  for (const KnowledgeReview::Note& note : review.notes) {
    Json entry{{"topic", note.topic}};
    entry.update(at(note.place));
    entry["text"] = note.text;
    out["notes"].push_back(entry);
  }
  out["expected"] = Json::array();
  for (const KnowledgeReview::Expected& cell : review.expected)
    out["expected"].push_back(Json{{"family", cell.family},
                                   {"history", cell.history},
                                   {"causes", cell.causes},
                                   {"share-gross", cell.gross}});
  return out.dump(2) + "\n";
}

}  // namespace soot
