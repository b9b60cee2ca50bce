#include "core/report/catalogue.hpp"

#include "core/base/text.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>
#include <nlohmann/json.hpp>

#include <algorithm>

namespace soot {
namespace {

using Json = nlohmann::ordered_json;

}  // namespace

std::string to_text(const std::vector<CatalogueLine>& lines, const Look& look) {
  std::size_t width = 0;
  for (const CatalogueLine& line : lines)
    width = std::max(width, line.id.size());
  const std::string indent(width + 2, ' ');
  std::string out;
  for (const CatalogueLine& line : lines) {
    const std::string about = line.about.empty() ? "" : fmt::format(" ({})", line.about);
    out +=
        fold(line.name + about, look.width, fmt::format("{:<{}}  ", line.id, width), indent) + "\n";
  }
  return plain(look, out);
}

std::string to_json(std::string_view kind, const std::vector<CatalogueLine>& lines) {
  Json out{{"format", fmt::format("sootsayer.{}-list/1", kind)}};
  out["entries"] = Json::array();
  for (const CatalogueLine& line : lines)
    out["entries"].push_back(Json{{"id", line.id}, {"name", line.name}, {"about", line.about}});
  return out.dump(2) + "\n";
}

std::string to_text(const SpecSheet& sheet, const Look& look) {
  const Family& family = sheet.family;
  std::string out =
      fmt::format("{} ({}), version {}\n", strong(look, family.name), family.id, family.version);
  if (!family.about.empty()) out += fold(family.about, look.width) + "\n";
  out += fold(fmt::format("{} cylinder{}, {}-stroke, firing order {}, {}; {}", family.cylinders,
                          family.cylinders == 1 ? "" : "s", family.strokes,
                          fmt::join(family.firing_order, "-"), family.rotation, family.numbering),
              look.width) +
         "\n\n";
  std::size_t width = 0;
  for (const SpecSheet::Line& line : sheet.lines)
    width = std::max(width, line.key.size());
  for (const SpecSheet::Line& line : sheet.lines)
    out += fold(fmt::format("{}{}", line.figure,
                            line.source == "given" ? "" : fmt::format("  [{}]", line.source)),
                look.width, fmt::format("{:<{}}  ", line.key, width), std::string(width + 2, ' ')) +
           "\n";
  if (!family.rules.empty()) out += "\n";
  for (const std::string& rule : family.rules)
    out += fold(rule, look.width, "- ", "  ") + "\n";
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
  for (const SpecSheet::Line& line : sheet.lines)
    out["figures"][line.key] = Json{{"figure", line.figure}, {"source", line.source}};
  out["rules"] = family.rules;
  return out.dump(2) + "\n";
}

}  // namespace soot
