// calibration [--jobs N] [--seed N]: jobs drawn from the model on every family that the plugins
// serve, and how well the program's percentages fit them. Run from the root of the checkout.
#include "core/workbench/bench.hpp"
#include "tests/calibration/calibrate.hpp"
#include "tests/judges/arguments.hpp"

#include <fmt/format.h>

#include <filesystem>

namespace {

using namespace soot;
using namespace soot::judges;

Result<std::uint64_t> whole(const std::string& name, const std::string& text) {
  if (text.empty() || text.size() > 9 || text.find_first_not_of("0123456789") != std::string::npos)
    return fail(Kind::use, "--{} {} is no whole number", name, text);
  return std::stoull(text);
}

Result<Calibration> run(const std::filesystem::path& program,
                        const std::vector<std::string>& words) {
  const auto given = read_arguments(words, {{"jobs", "2000"}, {"seed", "1"}});
  if (!given) return pass_on(given);
  const Result<std::uint64_t> jobs = whole("jobs", given->at("jobs"));
  if (!jobs) return pass_on(jobs);
  const Result<std::uint64_t> seed = whole("seed", given->at("seed"));
  if (!seed) return pass_on(seed);
  const auto bench =
      Bench::open({"knowledge", "cases", {program.parent_path() / "plugins"}, {}, {}, {}});
  if (!bench) return pass_on(bench);
  Calibration all;
  for (const Bench::Served& served : (*bench)->families()) {
    const Result<Engine> engine = (*bench)->engine(served.family.id);
    if (!engine) return pass_on(engine);
    const Result<Calibration> one = calibrate(*engine, *jobs, *seed);
    if (!one) return pass_on(one);
    fmt::print("{}: {} jobs, worst gap {:.4f}, {} too large\n", served.family.id, one->jobs,
               one->worst_gap(), one->too_large);
    all.add(*one);
  }
  return all;
}

}  // namespace

int main(int count, char** words) {
  const Result<Calibration> result = run(words[0], {words + 1, words + count});
  if (!result) return complain(result.error());
  fmt::print(
      "\nall families, {} jobs\n  said        entries   mean said  share there  gap     standard "
      "error\n",
      result->jobs);
  for (std::size_t b = 0; b < result->bands.size(); ++b) {
    const Band& band = result->bands[b];
    fmt::print("  {:.1f} to {:.1f} {:>10} {:>11.4f} {:>12.4f}  {:.4f}  {:.4f}{}\n",
               0.2 * static_cast<double>(b), 0.2 * static_cast<double>(b + 1), band.entries,
               band.mean_said(), band.share_there(), band.gap(), band.standard_error(),
               band.judged() ? "" : " (too few to judge)");
  }
  fmt::print("figure calibration-worst-gap {:.4f}\n", result->worst_gap());
  fmt::print("figure calibration-jobs {}\n", result->jobs);
  fmt::print("figure calibration-too-large {}\n", result->too_large);
  return 0;
}
