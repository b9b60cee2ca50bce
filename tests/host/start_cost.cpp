// What a loaded plugin adds to the start of a run: from its manifest to the families served,
// library mapped for the first time, sums compared, law asked. Each measurement in a fresh process
// that has started the plugin without a library before, as every run has; prints the median of 41
// for each compiled plugin of the build, and the worst of them as a figure.
#include "core/host/consent.hpp"
#include "core/host/find.hpp"
#include "core/host/registry.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <filesystem>
#include <sys/wait.h>
#include <unistd.h>
#include <vector>

namespace {

using namespace soot::host;

double one_start_ms(const Manifest& manifest) {
  using Clock = std::chrono::steady_clock;
  const Clock::time_point begin = Clock::now();
  if (!judge_own(manifest).may_load()) std::abort();
  const Registry registry({manifest});
  if (registry.families().empty()) std::abort();
  return std::chrono::duration<double, std::milli>(Clock::now() - begin).count();
}

double in_a_fresh_process(const Manifest& text, const Manifest& manifest) {
  int ends[2];
  if (pipe(ends) != 0) std::abort();
  const pid_t child = fork();
  if (child == 0) {
    one_start_ms(text);
    const double ms = one_start_ms(manifest);
    _exit(write(ends[1], &ms, sizeof ms) == sizeof ms ? 0 : 1);
  }
  double ms = 0;
  const bool heard = child > 0 && read(ends[0], &ms, sizeof ms) == sizeof ms;
  if (!heard || waitpid(child, nullptr, 0) != child) std::abort();
  close(ends[0]);
  close(ends[1]);
  return ms;
}

}  // namespace

int main() {
  const auto program = std::filesystem::read_symlink("/proc/self/exe");
  constexpr std::size_t rounds = 41;
  double worst = 0;
  const Found found = find_plugins({program.parent_path() / "plugins"});
  const auto text = std::find_if(found.manifests.begin(), found.manifests.end(),
                                 [](const Manifest& manifest) { return manifest.is_text(); });
  if (text == found.manifests.end()) std::abort();
  for (const Manifest& manifest : found.manifests) {
    if (manifest.is_text()) continue;
    std::vector<double> all;
    for (std::size_t i = 0; i < rounds; ++i)
      all.push_back(in_a_fresh_process(*text, manifest));
    std::nth_element(all.begin(), all.begin() + rounds / 2, all.end());
    fmt::print("{} {:.2f} ms\n", manifest.id, all[rounds / 2]);
    worst = std::max(worst, all[rounds / 2]);
  }
  fmt::print("figure plugin-start-ms {:.2f}\n", worst);
}
