// A check's or a correction's procedure for this engine, with its figures put in.
#pragma once

#include "core/report/look.hpp"

#include <string>
#include <vector>

namespace soot {

struct StepsSheet {
  std::string id;
  std::string name;
  std::string kind;   ///< "check" or "correction"
  std::string tells;  ///< what a check tells, or what a correction mends
  std::string family;
  double minutes = 0;      ///< for one cylinder, or the whole engine
  double all_minutes = 0;  ///< for all cylinders, if that is another figure
  int cylinders = 1;
  double opening_minutes = 0;
  std::string state;  ///< "stopped, pump off"
  std::vector<std::string> tools;
  std::vector<std::string> cautions;  ///< of the whole
  struct Line {
    std::vector<std::string> cautions;  ///< before this step
    std::string text;
  };
  std::vector<Line> lines;
  std::vector<std::string> figures;  ///< "lifter-depth 29.20 mm +/- 0.05"
  std::vector<std::string> setting;  ///< order, angles and flats of this engine
  std::string means;
  std::vector<std::string> remarks;  ///< "no figure known for ..."
};

std::string to_text(const StepsSheet& sheet, const Look& look);

}  // namespace soot
