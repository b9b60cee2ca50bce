// signatures [--seeds N] [FAMILY...]: six faults on each family of two cylinders or more, read with
// ordinary scatter; prints each miss and the share in which the truth came first of the six.
#include "core/workbench/bench.hpp"
#include "tests/places.hpp"
#include "tests/signatures/simulate.hpp"
#include "tests/signatures/trial.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstdio>
#include <exception>

namespace {

struct Request {
  std::uint64_t seeds = 50;
  std::vector<std::string> families;
};

Request request_of(int argc, char** argv) {
  Request request;
  for (int i = 1; i < argc; ++i) {
    const std::string word = argv[i];
    if (word == "--seeds" && i + 1 < argc)
      request.seeds = std::stoull(argv[++i]);
    else
      request.families.push_back(word);
  }
  return request;
}

int measure(const Request& request) {
  const auto bench = soot::Bench::open({source_dir() + "/knowledge",
                                        source_dir() + "/cases",
                                        {binary_dir() + "/plugins"},
                                        {},
                                        {},
                                        {}});
  if (!bench) throw std::runtime_error(to_string(bench.error()));
  int right = 0, all = 0;
  for (const soot::Bench::Served& served : (*bench)->families()) {
    const std::string& id = served.family.id;
    const bool asked =
        request.families.empty() ||
        std::find(request.families.begin(), request.families.end(), id) != request.families.end();
    if (!asked || served.family.cylinders < 2) continue;
    const soot::Engine engine = (*bench)->engine(id).value();
    for (const std::string& cause : soot::test::six_causes()) {
      int found = 0;
      for (std::uint64_t seed = 1; seed <= request.seeds; ++seed) {
        const soot::test::Trial trial = soot::test::try_cause(engine, cause, seed);
        found += trial.right() ? 1 : 0;
        if (!trial.refused.empty())
          fmt::print("{} {} seed {}: {}\n", id, cause, seed, trial.refused);
        else if (!trial.right())
          fmt::print("{} {} seed {}: {} comes first ({:.2f})\n", id, cause, seed, trial.first,
                     trial.probability);
        std::fflush(stdout);
      }
      fmt::print("{} {}: {} of {}\n", id, cause, found, request.seeds);
      right += found;
      all += static_cast<int>(request.seeds);
    }
  }
  fmt::print("figure signatures {:.3f}\n", all > 0 ? static_cast<double>(right) / all : 0.0);
  return all > 0 ? 0 : 1;
}

}  // namespace

int main(int argc, char** argv) {
  try {
    return measure(request_of(argc, argv));
  } catch (const std::exception& error) {
    fmt::print(stderr, "signatures: {}\n", error.what());
    return 1;
  }
}
