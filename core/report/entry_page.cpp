#include "core/report/entry_page.hpp"

#include "core/base/text.hpp"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <cctype>

namespace soot {
namespace {

using Json = nlohmann::ordered_json;

constexpr std::size_t widest_mark = 28;  // a longer one stands on a line of its own

std::string capitals(std::string text) {
  std::transform(text.begin(), text.end(), text.begin(),
                 [](unsigned char c) { return static_cast<char>(std::toupper(c)); });
  return text;
}

void add(const EntryPage::Section& section, const Look& look, std::string& out) {
  std::size_t width = 0;
  for (const EntryPage::Line& line : section.lines)
    if (line.mark.size() <= widest_mark) width = std::max(width, line.mark.size());
  const std::string indent(width == 0 ? 2 : width + 4, ' ');
  out += "\n" + strong(look, capitals(section.title)) + "\n";
  for (const EntryPage::Line& line : section.lines) {
    std::string first = "  " + line.mark;
    if (line.mark.size() > width) {
      out += first + "\n";
      first.clear();
    }
    first.resize(std::max(indent.size(), first.size()), ' ');
    out += fold(line.text, look.width, first, indent) + "\n";
  }
}

}  // namespace

std::string to_text(const std::vector<EntryPage>& pages, const Look& look) {
  std::string out;
  for (const EntryPage& page : pages) {
    if (!out.empty()) out += "\n" + std::string(look.width, '-') + "\n";
    out += fmt::format("{}  ({})\n", strong(look, page.id), page.kind);
    out += fold(page.name, look.width) + "\n";
    if (!page.about.empty()) out += "\n" + fold(page.about, look.width) + "\n";
    for (const EntryPage::Section& section : page.sections)
      add(section, look, out);
  }
  return plain(look, out);
}

std::string to_json(const std::vector<EntryPage>& pages) {
  Json out{{"format", "sootsayer.knowledge-entry/1"}};
  out["entries"] = Json::array();
  for (const EntryPage& page : pages) {
    Json entry{{"kind", page.kind}, {"id", page.id}, {"name", page.name}, {"about", page.about}};
    entry["sections"] = Json::array();
    for (const EntryPage::Section& section : page.sections) {
      Json lines = Json::array();
      for (const EntryPage::Line& line : section.lines)
        lines.push_back(Json{{"mark", line.mark}, {"text", line.text}});
      entry["sections"].push_back(Json{{"title", section.title}, {"lines", lines}});
    }
    out["entries"].push_back(entry);
  }
  return out.dump(2) + "\n";
}

std::string to_text(const std::vector<FoundLine>& lines, const Look& look) {
  std::size_t kind = 0, id = 0;
  for (const FoundLine& line : lines) {
    kind = std::max(kind, line.kind.size());
    id = std::max(id, line.id.size());
  }
  std::string out;
  for (const FoundLine& line : lines)
    out +=
        fold(line.name, look.width, fmt::format("{:<{}}  {:<{}}  ", line.kind, kind, line.id, id),
             std::string(kind + id + 4, ' ')) +
        "\n";
  return plain(look, out);
}

std::string to_json(std::string_view words, const std::vector<FoundLine>& lines) {
  Json out{{"format", "sootsayer.knowledge-find/1"}, {"words", words}};
  out["entries"] = Json::array();
  for (const FoundLine& line : lines)
    out["entries"].push_back(
        Json{{"kind", line.kind}, {"id", line.id}, {"name", line.name}, {"score", line.score}});
  return out.dump(2) + "\n";
}

}  // namespace soot
