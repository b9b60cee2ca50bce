// Lists and tables of what there is: families, one family's spec table, the knowledge's entries,
// plugins.
#pragma once

#include "core/model/family.hpp"
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

struct SpecSheet {
  Family family;
  struct Line {
    std::string key;
    std::string figure;
    std::string source;
  };
  std::vector<Line> lines;
};

std::string to_text(const SpecSheet& sheet, const Look& look);
std::string to_json(const SpecSheet& sheet);

}  // namespace soot
