#include "core/base/problem.hpp"

#include <algorithm>

namespace soot {

std::string to_string(const Problem& problem) {
  std::string out;
  if (!problem.place.file.empty()) {
    out += problem.place.file.text();
    if (problem.place.line > 0) out += fmt::format(":{}", problem.place.line);
    if (problem.place.line > 0 && problem.place.column > 0)
      out += fmt::format(":{}", problem.place.column);
    out += ": ";
  }
  out += problem.text;
  if (!problem.excerpt.empty()) out += "\n" + problem.excerpt;
  return out;
}

std::string to_string(const Problems& problems) {
  std::string out;
  for (const Problem& problem : problems) {
    if (!out.empty()) out += "\n";
    out += to_string(problem);
  }
  return out;
}

bool has_errors(const Problems& problems) {
  return std::any_of(problems.begin(), problems.end(),
                     [](const Problem& p) { return p.severity == Severity::error; });
}

}  // namespace soot
