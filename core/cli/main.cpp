// The process: reads the words, does what they ask, prints what went wrong, gives the exit code.
#include "core/base/heap.hpp"
#include "core/base/text.hpp"
#include "core/cli/commands.hpp"
#include "core/cli/exit_code.hpp"
#include "core/cli/options.hpp"

#include <csignal>
#include <cstdio>
#include <cstdlib>
#include <exception>

namespace soot::cli {

static std::optional<std::string> environment(const char* name) {
  const char* value = std::getenv(name);
  if (value == nullptr || *value == '\0') return std::nullopt;
  return std::string{value};
}

static int answer(int argc, char** argv) {
  Terminal terminal = process_terminal();
  const Parsed parsed = parse({argv + 1, argv + argc});
  if (!parsed.request) {
    (parsed.is_complaint ? terminal.talk : terminal.answer)(parsed.text);
    return parsed.exit_code;
  }
  std::error_code error;
  const std::filesystem::path program = std::filesystem::read_symlink("/proc/self/exe", error);
  Surroundings surroundings = find_surroundings(error ? argv[0] : program, environment);
  std::vector<std::filesystem::path>& foreign = surroundings.places.foreign_plugins;
  foreign.insert(foreign.begin(), parsed.plugin_path.begin(), parsed.plugin_path.end());
  Session session(std::move(surroundings), terminal, system_clock_utc);
  const Result<void> result =
      std::visit([&](const auto& request) { return run(session, request); }, *parsed.request);
  if (result) return answered;
  for (const Problem& problem : result.error())
    complain(terminal, problem);
  return exit_code_of(result.error());
}

}  // namespace soot::cli

int main(int argc, char** argv) {
  soot::take_heap_ahead();
  std::signal(SIGXFSZ, SIG_IGN);  // a file that may not grow is a failure, not the end
  try {
    return soot::cli::answer(argc, argv);
  } catch (const std::exception& error) {
    std::fprintf(stderr, "sootsayer: internal error: %s\n", error.what());
    return soot::cli::internal_error;
  }
}
