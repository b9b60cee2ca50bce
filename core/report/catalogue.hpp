// Lists of what there is: families, the knowledge's entries, plugins.
#pragma once

#include "core/report/look.hpp"

#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace soot {

struct CatalogueLine {
  std::string id;
  std::string name;
  std::string about;  ///< more in a few words; may be empty
};

/// `kind` for the JSON: "family", "symptom", "plugin", ...
std::string to_text(const std::vector<CatalogueLine>& lines, const Look& look);
std::string to_json(std::string_view kind, const std::vector<CatalogueLine>& lines);

}  // namespace soot
