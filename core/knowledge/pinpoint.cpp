#include "core/knowledge/pinpoint.hpp"

#include "core/base/text.hpp"
#include "core/table/read_text.hpp"
#include "core/table/reader.hpp"

#include <algorithm>

namespace soot {
namespace {

// Just behind the n-th line end.
std::size_t begin_of_line(std::string_view text, int line) {
  std::size_t at = 0;
  for (int n = 1; n < line && at != std::string_view::npos; ++n) {
    at = text.find('\n', at);
    if (at != std::string_view::npos) ++at;
  }
  return at;
}

// The next entry begins at a line with "[[name]]"; "[[cause.symptom]]" still belongs to the cause.
std::size_t end_of_entry(std::string_view text, std::size_t begin) {
  for (std::size_t at = text.find("\n[[", begin); at != std::string_view::npos;
       at = text.find("\n[[", at + 1)) {
    const std::string_view head = text.substr(at, text.find("]]", at) - at);
    if (head.find('.') == std::string_view::npos) return at;
  }
  return text.size();
}

}  // namespace

Problem Pinpoint::at(Problem problem, std::string_view name) {
  const std::string& text = text_of(problem.place.file);
  const std::size_t begin = begin_of_line(text, problem.place.line);
  if (begin >= text.size()) return problem;
  const std::string_view entry = std::string_view{text}.substr(0, end_of_entry(text, begin + 1));
  const std::size_t found = entry.find('"' + std::string{name} + '"', begin);
  if (found == std::string_view::npos) return problem;
  const std::string_view before = entry.substr(0, found);
  problem.place.line = 1 + static_cast<int>(std::count(before.begin(), before.end(), '\n'));
  const std::size_t line_begin = before.rfind('\n') + 1;  // npos + 1 is 0
  problem.place.column = 1 + static_cast<int>(width_of(before.substr(line_begin)));
  problem.excerpt = excerpt_of(text, problem.place.line, problem.place.column);
  return problem;
}

const std::string& Pinpoint::text_of(const std::string& file) {
  const auto known = texts_.find(file);
  if (known != texts_.end()) return known->second;
  return texts_.emplace(file, read_text(file, Document::max_bytes).value_or("")).first->second;
}

}  // namespace soot
