#include "core/cli/plugin_trial.hpp"

#include "core/cli/commands.hpp"
#include "core/host/child.hpp"
#include "core/workbench/served_check.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <unistd.h>

namespace soot::cli {

host::Trial try_plugin_in_child(Session& session, const host::Manifest& manifest,
                                const std::string& path, unsigned seconds) {
  const host::ProbeLimits limits{seconds};
  const std::vector<std::string> command{
      "/proc/self/exe", "plugin", "probe", path, "--timeout", std::to_string(seconds)};
  return try_plugin(manifest, command, limits, [&](const std::string& step) {
    session.terminal().talk(fmt::format("... {}\n", step));
  });
}

std::string usable_line(const host::Trial& trial) {
  return fmt::format("{} {}: usable, serves {}\n", trial.id, trial.version,
                     fmt::join(trial.families, ", "));
}

Result<void> run(Session& session, const PluginCheck& request) {
  const Result<host::Manifest> manifest = host::plugin_at(request.path);
  if (!manifest) return pass_on(manifest);
  const host::Trial trial = try_plugin_in_child(session, *manifest, request.path, request.seconds);
  if (!trial.is_usable()) return tl::unexpected<Problems>(trial.problems);
  for (const Problem& note : trial.problems)
    complain(session.terminal(), note);
  session.terminal().answer(usable_line(trial));
  return {};
}

Result<void> run(Session& session, const PluginProbe& request) {
  host::keep_limits({request.seconds});
  const host::Say say = [](const host::Word& word) {
    const std::string line = encode(word);
    for (std::size_t at = 0; at < line.size();) {
      const ssize_t put = write(host::report_descriptor, line.data() + at, line.size() - at);
      if (put <= 0) return;  // nobody listens: the trial is off
      at += static_cast<std::size_t>(put);
    }
  };
  const Result<host::Manifest> manifest = host::plugin_at(request.path);
  if (!manifest) return pass_on(manifest);
  const std::vector<host::ServedFamily> served =
      probe(*manifest, {}, host::streams_descriptor, say);
  if (!served.empty()) {
    say({host::Word::step, "reading the tables", "", {}});
    for (const Problem& problem : check_served(served, session.surroundings().places.knowledge))
      say({host::Word::problem, "", "", problem});
  }
  say({host::Word::step, "the end of the process", "", {}});
  say({host::Word::done, "", "", {}});
  return {};
}

}  // namespace soot::cli
