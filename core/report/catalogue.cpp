#include "core/report/catalogue.hpp"

#include "core/base/text.hpp"

#include <fmt/format.h>
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

}  // namespace soot
