// The spec table of a family, for the wall, and what a check of its file found.
#pragma once

#include "core/model/family.hpp"
#include "core/report/look.hpp"

#include <string>
#include <vector>

namespace soot {

struct SpecSheet {
  Family family;
  std::string turning;    ///< sense from either end, in one sentence
  std::string other_end;  ///< the order for one who counts from the other end; "" if it is the same
  struct Line {
    std::string group;
    std::string key;
    std::string words;
    std::string figure;  ///< "" = no figure known
    std::string source;  ///< "given", "derived" or a citation; "" with the figure
    std::string from;    ///< what a derived one follows from
  };
  std::vector<Line> lines;  ///< by group
};

/// A family's file without faults: what it leaves out.
struct FamilyFindings {
  Family family;
  std::size_t figures = 0;            ///< that it gives
  std::vector<std::string> left_out;  ///< keys of known figures that it neither gives nor implies
  /// Quantities without a nominal value, so that their readings only compare cylinders.
  std::vector<std::string> compare_only;
  /// What the timing of an engine needs, by what it needs it for; each is left out.
  std::vector<std::string> timing_gaps;
};

std::string to_text(const SpecSheet& sheet, const Look& look);
std::string to_json(const SpecSheet& sheet);
std::string to_text(const FamilyFindings& findings, const Look& look);

}  // namespace soot
