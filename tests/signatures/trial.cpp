#include "tests/signatures/trial.hpp"

#include "core/workbench/inquiry.hpp"
#include "tests/signatures/simulate.hpp"

#include <random>

namespace soot::test {

namespace {
/// Coarser than `rank` asks, and several times as fast; but chances below a hundredth or so may be
/// given up. Where it leaves the six undecided, it is asked again as `rank` asks.
constexpr infer::Limits coarse_limits{.tolerance = 1e-2};
constexpr double decided = 0.5;

Trial first_of_six(const std::string& truth, const Inquiry& inquiry,
                   const infer::Posterior& posterior) {
  Trial trial{truth, "", -1, ""};
  for (const std::string& candidate : six_causes()) {
    const double any = posterior.any[inquiry.built.cause_index.find(candidate)->second];
    if (any <= trial.probability) continue;
    trial.first = candidate;
    trial.probability = any;
  }
  return trial;
}
}  // namespace

Trial try_cause(const Engine& engine, const std::string& cause, std::uint64_t seed) {
  std::seed_seq seeds{
      seed, static_cast<std::uint64_t>(std::hash<std::string>{}(engine.family.id + cause))};
  std::mt19937_64 random{seeds};
  const Truth truth = draw_truth(engine, cause, random);
  const Result<Inquiry> inquiry = inquire(engine, read_engine(engine, truth, random));
  if (!inquiry) return {cause, "", 0, to_string(inquiry.error())};
  Trial trial;
  for (const infer::Limits& limits : {coarse_limits, asked_limits}) {
    const auto posterior =
        infer::posterior(inquiry->built.network, inquiry->evidence.evidence, limits);
    if (!posterior) return {cause, "", 0, to_string(posterior.error())};
    trial = first_of_six(cause, *inquiry, *posterior);
    if (trial.probability >= decided) break;
  }
  return trial;
}

}  // namespace soot::test
