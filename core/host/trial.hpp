// The parent's half of trying a plugin: has a child do it and says what came of it, also if the
// child did not live to tell.
#pragma once

#include "core/base/problem.hpp"
#include "core/host/manifest.hpp"
#include "core/host/probe.hpp"

#include <functional>
#include <string>
#include <vector>

namespace soot::host {

struct Trial {
  std::string id, version;            ///< as far as they became known
  std::vector<std::string> families;  ///< ids
  /// Errors: it must not be used. A child that died is one of them:
  /// "crashed in init (signal 11, SEGV)", "still running after 10 s in lift_at of winch-1",
  /// "ended the process by itself in init (exit code 0)".
  Problems problems;

  bool is_usable() const { return !has_errors(problems); }
};

/// `command` starts the child, which is to keep `limits` and to say the words of wire.hpp; `hear`
/// is told each step before it is made. The clock may show five times the seconds that the
/// processor may take: other programs run too.
Trial try_plugin(const Manifest& manifest, const std::vector<std::string>& command,
                 const ProbeLimits& limits, const std::function<void(const std::string&)>& hear);

}  // namespace soot::host
