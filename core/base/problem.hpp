// What can go wrong and where: one sentence a person can act on. Expected failures travel as values
// of this kind up to the command line, which prints them and picks the exit code.
#pragma once

#include "core/base/file_name.hpp"

#include <fmt/format.h>
#include <tl/expected.hpp>

#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace soot {

/// Each kind has its own exit code (core/cli/exit_code.hpp).
enum class Kind {
  use,      ///< the person's words on the command line, or a fact he entered
  data,     ///< a file of data: job, case, knowledge, family
  trouble,  ///< plugin, ledger, disk: the surroundings
};

enum class Severity { error, note };

/// A place in a file; line and column count from 1, 0 means "not known".
struct Place {
  FileName file;
  int line = 0;
  int column = 0;
  bool operator==(const Place&) const = default;
};

struct Problem {
  Kind kind = Kind::data;
  Severity severity = Severity::error;
  Place place;
  std::string text;     ///< what is wrong (what was expected); lower case, no full stop
  std::string excerpt;  ///< the source line with a caret below it, or empty
};

using Problems = std::vector<Problem>;

/// A value, or what was wrong. Never both, never neither.
template <class T>
using Result = tl::expected<T, Problems>;

/// `file:line:column: text`, leaving out what is not known; the excerpt below, if any.
std::string to_string(const Problem& problem);
/// One problem a line (or a block, with its excerpt), in order.
std::string to_string(const Problems& problems);

bool has_errors(const Problems& problems);

template <class... Args>
Problem make_problem(Kind kind, fmt::format_string<Args...> text, Args&&... args) {
  Problem problem;
  problem.kind = kind;
  problem.text = fmt::format(text, std::forward<Args>(args)...);
  return problem;
}

/// `return fail(Kind::use, "cylinder {} of {}", 7, 4);`
template <class... Args>
tl::unexpected<Problems> fail(Kind kind, fmt::format_string<Args...> text, Args&&... args) {
  return tl::unexpected<Problems>(Problems{make_problem(kind, text, std::forward<Args>(args)...)});
}

/// Hands the problems of one result on as those of another type.
template <class T>
tl::unexpected<Problems> pass_on(const Result<T>& failed) {
  return tl::unexpected<Problems>(failed.error());
}

}  // namespace soot
