// `plugin check` and the child that it runs.
#pragma once

#include "core/cli/session.hpp"
#include "core/host/trial.hpp"

namespace soot::cli {

/// Tries a plugin in a child of this program; each step is told before it is made.
host::Trial try_plugin_in_child(Session& session, const host::Manifest& manifest,
                                const std::string& path, unsigned seconds);

/// "winch 1.0.0: usable, serves winch-1\n"
std::string usable_line(const host::Trial& trial);

}  // namespace soot::cli
