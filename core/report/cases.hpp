// Prepared cases: the list, and one of them run.
#pragma once

#include "core/report/answers.hpp"
#include "core/report/look.hpp"

#include <string>
#include <vector>

namespace soot {

struct CaseTitle {
  std::string name;
  std::string family;
  std::string title;
};

struct TruthLine {
  std::string cause;
  std::string name;
  int cylinder = 0;
  std::string grade;
  /// By cause: 1 + how many causes are more probable. 0: the engine's knowledge lacks it.
  std::size_t rank = 0;
  /// Of a cause that no entry stands for: the largest chance left to such a one by any sign.
  double probability = 0;
  int likeliest_cylinder = 0;  ///< that the ranking names
  int within = 0;              ///< the case says: no further down than this; 0 = not said
};

struct CaseReport {
  std::string name;
  std::string title;
  std::string story;
  std::string route;
  std::string source;
  RankAnswer rank;
  std::vector<TruthLine> truth;
};

std::string to_text(const std::vector<CaseTitle>& titles, const Look& look);
std::string to_text(const CaseReport& report, const Look& look);

}  // namespace soot
