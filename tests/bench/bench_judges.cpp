#include "core/infer/answer.hpp"
#include "core/infer/dice.hpp"
#include "tests/bench/bench.hpp"
#include "tests/infer/against_oracle.hpp"
#include "tests/infer/build_network.hpp"
#include "tests/infer/dlib_tree.hpp"

#include <cmath>
#include <csignal>
#include <optional>
#include <sys/wait.h>
#include <unistd.h>

namespace soot::bench {

namespace {

/// A two-layer network of causes that are there or not.
struct NoisyOr {
  infer::Network network;
  std::vector<infer::Finding> present, absent;
};

NoisyOr noisy_or(std::size_t causes, std::size_t present, std::size_t heard_by,
                 std::uint64_t seed) {
  infer::Dice dice(seed);
  NoisyOr model;
  model.network = tests::one_history();
  for (std::size_t i = 0; i < causes; ++i)
    tests::add_cause(model.network, "c", infer::Scope::engine, std::pow(10.0, dice.real(-3, -1.3)));
  const std::size_t absent = causes < 100 ? 8 : 30;
  for (std::size_t s = 0; s < present + absent; ++s) {
    std::vector<std::pair<std::size_t, double>> links;
    for (std::size_t i = 0; i < causes; ++i)
      if (dice.real(0, 1) < static_cast<double>(heard_by) / static_cast<double>(causes))
        links.emplace_back(i, dice.real(0.05, 0.9));
    if (links.empty()) links.emplace_back(dice.below(causes), 0.5);
    const std::size_t symptom =
        tests::add_symptom(model.network, "s", infer::Scope::engine, dice.real(0.005, 0.05), links);
    (s < present ? model.present : model.absent).push_back(tests::saw(symptom, s < present));
  }
  return model;
}

/// What both are timed on: the absent findings made part of the priors, causes that no present
/// finding hears left out.
infer::Network absorbed(const NoisyOr& model, std::vector<std::size_t>& kept) {
  infer::Network result = tests::one_history();
  std::vector<double> prior;
  for (const infer::Cause& cause : model.network.causes)
    prior.push_back(cause.prior[0][0]);
  std::vector<double> quiet(prior.size(), 1.0);
  for (const infer::Finding& finding : model.absent)
    for (const infer::Link& link : model.network.symptoms[finding.symptom].links)
      quiet[link.cause] *= 1 - link.strength[0];
  std::vector<std::size_t> place(prior.size(), prior.size());
  for (const infer::Finding& finding : model.present)
    for (const infer::Link& link : model.network.symptoms[finding.symptom].links) {
      if (place[link.cause] < prior.size()) continue;
      place[link.cause] = kept.size();
      kept.push_back(link.cause);
    }
  for (const std::size_t cause : kept) {
    const double there = prior[cause] * quiet[cause];
    tests::add_cause(result, "c", infer::Scope::engine, there / (there + 1 - prior[cause]));
  }
  for (const infer::Finding& finding : model.present) {
    infer::Symptom symptom = model.network.symptoms[finding.symptom];
    for (infer::Link& link : symptom.links)
      link.cause = place[link.cause];
    result.symptoms.push_back(std::move(symptom));
  }
  return result;
}

/// Causes joined by present findings, starting from the first: dlib wants a connected graph.
bool is_connected(const infer::Network& network) {
  std::vector<bool> reached(network.causes.size());
  if (reached.empty()) return false;
  reached[0] = true;
  for (bool grown = true; grown;) {
    grown = false;
    for (const infer::Symptom& symptom : network.symptoms) {
      const bool touched =
          std::any_of(symptom.links.begin(), symptom.links.end(),
                      [&](const infer::Link& link) { return reached[link.cause]; });
      for (const infer::Link& link : symptom.links)
        if (touched && !reached[link.cause]) grown = reached[link.cause] = true;
    }
  }
  return std::all_of(reached.begin(), reached.end(), [](bool one) { return one; });
}

std::vector<double> chances(const infer::Network& network, const infer::Evidence& evidence) {
  std::vector<double> result;
  const auto answer = infer::posterior(network, evidence);
  for (const infer::Instance& instance : answer->instances)
    result.push_back(instance.grade[1]);
  return result;
}

/// dlib's answer and how long it took.
struct Theirs {
  double ms = 0;
  std::vector<double> chances;
};

void put(int pipe, const void* bytes, std::size_t count) {
  if (write(pipe, bytes, count) != static_cast<ssize_t>(count)) _exit(1);
}

bool get(int pipe, void* bytes, std::size_t count) {
  for (auto* at = static_cast<char*>(bytes); count > 0;) {
    const ssize_t got = read(pipe, at, count);
    if (got <= 0) return false;
    at += got;
    count -= static_cast<std::size_t>(got);
  }
  return true;
}

/// Nothing if it does not finish in a minute; ends the bench if it fails. Nothing inside dlib stops
/// it then: so it is asked in a process of its own.
std::optional<Theirs> ask_dlib(const infer::Network& network, const infer::Evidence& evidence) {
  constexpr unsigned patience = 60;
  int ends[2];
  must(pipe(ends) == 0);
  Theirs theirs;
  theirs.chances.resize(network.causes.size());
  const std::size_t size = theirs.chances.size() * sizeof(double);
  const pid_t child = fork();
  must(child >= 0);
  if (child == 0) {
    close(ends[0]);
    std::signal(SIGALRM, SIG_DFL);
    alarm(patience);
    theirs.ms = once_ms([&] {
      theirs.chances =
          tests::Unrolled(network, evidence.findings).probabilities(theirs.chances.size());
    });
    put(ends[1], &theirs.ms, sizeof theirs.ms);
    put(ends[1], theirs.chances.data(), size);
    _exit(0);
  }
  close(ends[1]);
  const bool is_whole =
      get(ends[0], &theirs.ms, sizeof theirs.ms) && get(ends[0], theirs.chances.data(), size);
  close(ends[0]);
  int status = 0;
  must(waitpid(child, &status, 0) == child);
  must(is_whole || (WIFSIGNALED(status) && WTERMSIG(status) == SIGALRM));
  return is_whole ? std::optional{std::move(theirs)} : std::nullopt;
}

}  // namespace

void judge(double& largest) {
  struct Size {
    std::size_t causes, present, heard_by;
  };
  const Size sizes[] = {{22, 6, 6}, {120, 5, 12}, {120, 6, 12}, {120, 7, 12}, {400, 5, 25}};
  std::vector<double> ratios;
  for (const Size& size : sizes) {
    std::vector<double> here, ours_ms;
    std::uint64_t seed = 1;
    int unfinished = 0;
    for (int models = 0; models < 10; ++seed) {
      const NoisyOr model = noisy_or(size.causes, size.present, size.heard_by, seed);
      std::vector<std::size_t> kept;
      const infer::Network small = absorbed(model, kept);
      if (!is_connected(small)) continue;
      ++models;
      infer::Evidence evidence;
      for (std::size_t s = 0; s < small.symptoms.size(); ++s)
        evidence.findings.push_back(tests::saw(s));
      std::vector<double> mine;
      const double own = typical_ms([&] { mine = chances(small, evidence); });
      const std::optional<Theirs> theirs = ask_dlib(small, evidence);
      if (!theirs) {
        ++unfinished;
        continue;
      }
      here.push_back(theirs->ms / own);
      ours_ms.push_back(own);
      infer::Evidence whole;
      whole.findings = model.present;
      whole.findings.insert(whole.findings.end(), model.absent.begin(), model.absent.end());
      const std::vector<double> by_absorbing = chances(model.network, whole);
      for (std::size_t k = 0; k < kept.size(); ++k)
        for (const double chance : {mine[k], by_absorbing[kept[k]]})
          largest = std::max(largest, std::abs(chance - theirs->chances[k]) / theirs->chances[k]);
    }
    std::printf("dlib %zu causes, %zu present: not finished in a minute %d of 10", size.causes,
                size.present, unfinished);
    if (!here.empty())
      std::printf("; ratio %.0f to %.0f, median %.0f; ours %.3f ms",
                  *std::min_element(here.begin(), here.end()),
                  *std::max_element(here.begin(), here.end()), median(here), median(ours_ms));
    std::printf("\n");
    std::fflush(stdout);
    ratios.insert(ratios.end(), here.begin(), here.end());
  }
  must(!ratios.empty());
  figure("ratio-dlib-min", *std::min_element(ratios.begin(), ratios.end()));
  figure("ratio-dlib-median", median(ratios));
  for (std::uint64_t seed = 1; seed <= 100; ++seed)
    largest = std::max(largest, tests::compare_with_oracle(seed).worst);
  figure("max-relative-error", largest);
}

}  // namespace soot::bench
