// Runs this program once more as a child whose words are heard while it runs, whatever becomes of
// it.
#pragma once

#include "core/base/problem.hpp"

#include <functional>
#include <string>
#include <string_view>
#include <vector>

namespace soot::host {

/// The child finds these open: its report goes to one; the other is a file that stands in for its
/// standard streams too.
inline constexpr int report_descriptor = 3;
inline constexpr int streams_descriptor = 4;

struct ChildEnd {
  enum Kind { exited, signalled, stalled };
  Kind kind = exited;
  int number = 0;    ///< exit code, or signal
  long peak_mb = 0;  ///< most memory in use at once
};

/// Runs `command` (its first word the program) with nothing on its standard input until it ends or
/// `seconds` of the clock have passed; then it is killed with all it started. `hear` gets what it
/// reports, as it comes.
Result<ChildEnd> run_child(const std::vector<std::string>& command, unsigned seconds,
                           const std::function<void(std::string_view)>& hear);

}  // namespace soot::host
