// One entry of the knowledge as a page to read, and the answers of a search.
#pragma once

#include "core/report/look.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace soot {

struct EntryPage {
  std::string kind;  ///< "cause", "symptom", ...
  std::string id;
  std::string name;
  std::string about;  ///< in a few sentences; may be empty
  struct Line {
    std::string mark;  ///< what stands before it: an id, "usually", ...; may be empty
    std::string text;
  };
  struct Section {
    std::string title;
    std::vector<Line> lines;
  };
  std::vector<Section> sections;  ///< in the order a mechanic reads them; none is empty
};

struct FoundLine {
  std::string kind;
  std::string id;
  std::string name;
  double score = 0;  ///< 0 to 1: these very words
};

std::string to_text(const std::vector<EntryPage>& pages, const Look& look);
std::string to_json(const std::vector<EntryPage>& pages);

std::string to_text(const std::vector<FoundLine>& lines, const Look& look);
std::string to_json(std::string_view words, const std::vector<FoundLine>& lines);

}  // namespace soot
