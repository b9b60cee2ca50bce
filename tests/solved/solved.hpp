// Real faults put to the program with what was known before the cause was seen, and where the true
// cause stands in its answer.
#pragma once

#include "tests/judges/code_map.hpp"
#include "tests/judges/plain_engines.hpp"
#include "tests/solved/told_case.hpp"

#include <string>
#include <vector>

namespace soot::judges {

struct SolvedCase {
  std::string id, cause;
  std::string first;         ///< what the program put first
  std::string history;       ///< as taken from the context; empty = unknown
  std::size_t signs = 0;     ///< symptoms and readings that could be entered
  std::size_t place = 0;     ///< of the true cause in its direction, from 1; 0 = not in the list
  std::size_t causes = 0;    ///< how long the list is
  std::size_t other = 0;     ///< of another true cause, the first of them; counts half
  bool in_scope = false;     ///< this engine's knowledge has the true cause
  std::string out_of_scope;  ///< why not
};

struct Solved {
  std::vector<SolvedCase> cases;

  /// Share of all cases; another true cause within counts half.
  double top(std::size_t places) const;
  double top_in_scope(std::size_t places) const;
  std::size_t in_scope() const;
  /// A cause that is not in the list stands one below its end.
  double median_place() const;
};

/// Several contexts speak of the history: work on the engine outweighs standing, standing age.
Result<Solved> solve(PlainEngines& engines, const CodeMap& map, const std::vector<ToldCase>& cases);

}  // namespace soot::judges
