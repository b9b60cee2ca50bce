// How fast core/infer answers at the product's size, and how it grows. Prints `figure NAME VALUE`.
// `bench_infer NAME...` prints those parts only: rank, what-ifs, growth, judges, command.
#include "core/infer/answer.hpp"
#include "tests/bench/bench.hpp"
#include "tests/bench/scale_model.hpp"

#include <cstdlib>
#include <fcntl.h>
#include <limits>
#include <spawn.h>
#include <string>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

namespace soot::bench {

namespace {

constexpr std::uint64_t models = 20;

/// One figure a model.
std::vector<double> rank_ms(const tests::Scale& scale, bool by_cause) {
  std::vector<double> times;
  infer::Limits limits;
  limits.by_cause = by_cause;
  // Several uncertain shifts at once: what is given up stays below the printed 1e-9.
  if (scale.instruments) limits.tolerance = 1e-10;
  for (std::uint64_t seed = 1; seed <= models; ++seed) {
    const tests::ScaleModel model = tests::scale_model(scale, seed);
    times.push_back(typical_ms([&] {
      const auto answer = infer::posterior(model.network, model.evidence, limits);
      must(answer.has_value() && !answer->impossible && !answer->sampled);
    }));
  }
  return times;
}

void print_ranks() {
  tests::Scale scale;
  const std::vector<double> known = rank_ms(scale, false);
  figure("rank-10", median(known));
  figure("rank-10-worst", *std::max_element(known.begin(), known.end()));
  scale.known_history = false;
  figure("rank-10-any-history", median(rank_ms(scale, false)));
  scale.instruments = true;
  figure("rank-10-whole", median(rank_ms(scale, true)));
  scale = {};
  scale.present = 15;
  figure("rank-15-dense", median(rank_ms(scale, false)));
  scale.heard = 2.0 / 15;  // two a cause, as at ten
  figure("rank-15", median(rank_ms(scale, false)));
}

/// The five bands of a reading, cut at 2 and 6 of the sound engine's deviations either side.
std::vector<infer::WhatIf> bands_of(const tests::ScaleModel& model, const infer::Reading& reading) {
  const infer::Normal sound =
      infer::expected_reading(model.network, reading.quantity, reading.cylinder, {});
  const double sd = std::sqrt(sound.sd * sound.sd + reading.sd * reading.sd);
  const double infinity = std::numeric_limits<double>::infinity();
  const double cuts[] = {-infinity, -6, -2, 2, 6, infinity};
  std::vector<infer::WhatIf> bands;
  for (std::size_t k = 0; k + 1 < std::size(cuts); ++k) {
    infer::Reading band = reading;
    band.lower = sound.mean + cuts[k] * sd;
    band.upper = sound.mean + cuts[k + 1] * sd;
    bands.push_back({{}, {band}});
  }
  return bands;
}

/// Median over the first `count` models of asking what `additions_of` a model names.
template <class AdditionsOf>
double what_ifs_ms(std::uint64_t count, AdditionsOf additions_of) {
  infer::Limits limits;
  limits.by_cause = false;
  std::vector<double> times;
  for (std::uint64_t seed = 1; seed <= count; ++seed) {
    const tests::ScaleModel model = tests::scale_model({}, seed);
    const std::vector<infer::WhatIf> additions = additions_of(model);
    times.push_back(once_ms([&] {
      must(infer::what_ifs(model.network, model.evidence, additions, limits).has_value());
    }));
  }
  return median(times);
}

void print_what_ifs() {
  const tests::ScaleModel first = tests::scale_model({}, 1);
  std::printf("looks %zu, both outcomes; readings %zu in five bands\n", first.unmade_looks.size(),
              first.unmade_readings.size());
  figure("what-ifs-findings", what_ifs_ms(models, [](const tests::ScaleModel& model) {
           std::vector<infer::WhatIf> additions;
           for (infer::Finding finding : model.unmade_looks)
             for (const bool present : {true, false}) {
               finding.present = present;
               additions.push_back({{finding}, {}});
             }
           return additions;
         }));
  constexpr std::uint64_t few = 3;  // each takes seconds
  figure("what-ifs-readings", what_ifs_ms(few, [](const tests::ScaleModel& model) {
           std::vector<infer::WhatIf> additions;
           for (const infer::Reading& reading : model.unmade_readings)
             for (infer::WhatIf& band : bands_of(model, reading))
               additions.push_back(std::move(band));
           return additions;
         }));
}

/// Exit status of the program, started without a shell.
int rank_command() {
  std::string words[] = {SOOT_PROGRAM, "rank", "--file", SOOT_SOURCE_DIR "/cases/tooth-out.toml"};
  char* const argv[] = {words[0].data(), words[1].data(), words[2].data(), words[3].data(),
                        nullptr};
  posix_spawn_file_actions_t actions;
  must(posix_spawn_file_actions_init(&actions) == 0 &&
       posix_spawn_file_actions_addopen(&actions, STDOUT_FILENO, "/dev/null", O_WRONLY, 0) == 0);
  pid_t child = 0;
  const int failed = posix_spawn(&child, argv[0], &actions, nullptr, argv, environ);
  posix_spawn_file_actions_destroy(&actions);
  int status = failed;
  if (failed == 0) must(waitpid(child, &status, 0) == child);
  return status;
}

void print_command() {
  if (rank_command() != 0) return;  // not built
  const auto time = [] { return typical_ms([] { must(rank_command() == 0); }, 11); };
  figure("rank-command", time());
  // With nothing kept of an earlier start, and nothing to be kept of this one.
  setenv("XDG_CACHE_HOME", "/dev/null", 1);
  figure("rank-command-first", time());
  unsetenv("XDG_CACHE_HOME");
}

double peak_mb() {
  rusage usage{};
  getrusage(RUSAGE_SELF, &usage);
  return static_cast<double>(usage.ru_maxrss) / 1024;
}

}  // namespace

}  // namespace soot::bench

int main(int argc, char** argv) {
  using namespace soot::bench;
  const Wanted wanted(argc, argv);
  if (wanted("rank")) print_ranks();
  if (wanted("what-ifs")) print_what_ifs();
  if (wanted("rank") || wanted("what-ifs")) figure("memory-peak-mb", peak_mb());
  if (wanted("command")) print_command();
  if (wanted("growth")) print_growth();
  if (wanted("judges")) {
    double largest = 0;
    judge(largest);
  }
}
