#include "core/host/trial.hpp"

#include "core/host/child.hpp"
#include "core/host/wire.hpp"

#include <cstring>

namespace soot::host {

namespace {
constexpr unsigned clock_factor = 5;

std::string how_it_ended(const ChildEnd& end, const std::string& doing, const ProbeLimits& limits) {
  const bool used_all = static_cast<std::uint64_t>(end.peak_mb) * 10 > limits.memory_mb * 9;
  switch (end.kind) {
    case ChildEnd::stalled:
      return fmt::format("still running after {} s in {}", limits.seconds, doing);
    case ChildEnd::signalled:
      return fmt::format(
          "crashed in {} (signal {}, {}{})", doing, end.number,
          sigabbrev_np(end.number) ? sigabbrev_np(end.number) : "unknown",
          used_all ? fmt::format(", its {} MB of memory used up", limits.memory_mb) : "");
    case ChildEnd::exited:
      break;
  }
  return fmt::format("ended the process by itself in {} (exit code {})", doing, end.number);
}
}  // namespace

Trial try_plugin(const Manifest& manifest, const std::vector<std::string>& command,
                 const ProbeLimits& limits, const std::function<void(const std::string&)>& hear) {
  Trial trial{manifest.id, manifest.version, {}, {}};
  std::string bytes;
  std::string doing = "the start of the trial";
  bool is_done = false;
  const auto take = [&](const Word& word) {
    if (word.kind == Word::step) hear(doing = word.text);
    if (word.kind == Word::named) trial.id = word.text, trial.version = word.version;
    if (word.kind == Word::family) trial.families.push_back(word.text);
    if (word.kind == Word::problem) trial.problems.push_back(word.what);
    is_done = is_done || word.kind == Word::done;
  };
  const Result<ChildEnd> end =
      run_child(command, limits.seconds * clock_factor, [&](std::string_view heard) {
        bytes += heard;
        for (const Word& word : decode(bytes))
          take(word);
      });
  if (!end) {
    trial.problems = end.error();
  } else if (end->kind != ChildEnd::exited || !is_done) {
    trial.problems.push_back({Kind::trouble, Severity::error, Place{manifest.main_file().string()},
                              how_it_ended(*end, doing, limits), ""});
  }
  return trial;
}

}  // namespace soot::host
