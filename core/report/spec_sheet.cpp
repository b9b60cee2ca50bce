#include "core/report/spec_sheet.hpp"

#include "core/base/text.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>
#include <nlohmann/json.hpp>

namespace soot {
namespace {

using Json = nlohmann::ordered_json;

constexpr std::size_t words_width = 38;
constexpr std::size_t figure_width = 30;

// Columns where they fit; a longer figure or source folds below itself.
std::string row(const SpecSheet::Line& line, const Look& look) {
  const std::string words = fmt::format("  {:<{}} ", line.words, words_width);
  if (line.figure.empty()) return words + faint(look, "no figure known") + "\n";
  const std::string columns =
      fmt::format("{}{:<{}} {}", words, line.figure, figure_width, line.source);
  if (width_of(columns) <= look.width) return columns + "\n";
  return fold(fmt::format("{} {}", line.figure, line.source), look.width, words,
              std::string(words.size(), ' ')) +
         "\n";
}

}  // namespace

std::string to_text(const SpecSheet& sheet, const Look& look) {
  const Family& family = sheet.family;
  std::string out = fmt::format("{} ({}), version {} by {}\n", strong(look, family.name), family.id,
                                family.version, family.author);
  if (!family.about.empty()) out += fold(family.about, look.width) + "\n";
  out += fold(fmt::format("{} cylinder{}, {}-stroke, firing order {}; {}", family.cylinders,
                          family.cylinders == 1 ? "" : "s", family.strokes,
                          fmt::join(family.firing_order, "-"), family.numbering),
              look.width) +
         "\n";
  out += fold(sheet.turning, look.width) + "\n";
  if (!sheet.other_end.empty()) out += fold(sheet.other_end, look.width) + "\n";
  std::string group;
  for (const SpecSheet::Line& line : sheet.lines) {
    if (line.group != group) out += fmt::format("\n{}\n", strong(look, line.group));
    group = line.group;
    out += row(line, look);
  }
  if (!family.rules.empty()) out += "\n";
  for (const std::string& rule : family.rules)
    out += fold(rule, look.width, "- ", "  ") + "\n";
  return plain(look, out);
}

std::string to_text(const FamilyFindings& findings, const Look& look) {
  const Family& family = findings.family;
  std::string out =
      fold(fmt::format("sound: {} ({}), {} cylinder{}, {} figures given", family.name, family.id,
                       family.cylinders, family.cylinders == 1 ? "" : "s", findings.figures),
           look.width) +
      "\n";
  const auto list = [&](std::string_view words, const std::vector<std::string>& keys) {
    if (keys.empty()) return;
    out += fold(fmt::format("{}: {}", words, fmt::join(keys, ", ")), look.width, "", "  ") + "\n";
  };
  list("timing work still wants", findings.timing_gaps);
  list("no figure known", findings.left_out);
  list("readings that can only compare cylinders", findings.compare_only);
  return plain(look, out);
}

std::string to_json(const SpecSheet& sheet) {
  const Family& family = sheet.family;
  Json out{{"format", "sootsayer.family/1"},
           {"id", family.id},
           {"name", family.name},
           {"version", family.version},
           {"plugin", family.plugin_id},
           {"cylinders", family.cylinders},
           {"strokes", family.strokes},
           {"firing-order", family.firing_order},
           {"rotation", family.rotation},
           {"numbering", family.numbering},
           {"features", family.features}};
  out["figures"] = Json::object();
  out["no-figure-known"] = Json::array();
  for (const SpecSheet::Line& line : sheet.lines) {
    if (line.figure.empty()) {
      out["no-figure-known"].push_back(line.key);
      continue;
    }
    out["figures"][line.key] = Json{{"figure", line.figure}, {"source", line.source}};
    if (!line.from.empty()) out["figures"][line.key]["from"] = line.from;
  }
  out["rules"] = family.rules;
  return out.dump(2) + "\n";
}

}  // namespace soot
