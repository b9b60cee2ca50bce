#include "tests/calibration/calibrate.hpp"

#include "core/infer/answer.hpp"
#include "core/workbench/inquiry.hpp"
#include "tests/calibration/looks.hpp"
#include "tests/calibration/sampler.hpp"

#include <algorithm>
#include <cmath>

namespace soot::judges {
namespace {

bool shows_anything(const infer::Evidence& evidence) {
  return std::any_of(evidence.findings.begin(), evidence.findings.end(),
                     [](const infer::Finding& finding) { return finding.present; });
}

std::vector<Entry> entries_of(const BuiltNetwork& built, const infer::Evidence& evidence,
                              const infer::Posterior& answer, const DrawnEngine& engine) {
  std::vector<Entry> out;
  for (std::size_t c = 0; c < built.causes.size(); ++c)
    out.push_back({answer.any[c], engine.has(c)});
  for (std::size_t f = 0; f < answer.instrument_wrong.size(); ++f) {
    const std::size_t quantity = built.network.instrument_faults[f].quantity;
    if (std::any_of(evidence.readings.begin(), evidence.readings.end(),
                    [&](const infer::Reading& r) { return r.quantity == quantity; }))
      out.push_back({answer.instrument_wrong[f], engine.instrument_is_wrong(f)});
  }
  return out;
}

}  // namespace

double Band::mean_said() const {
  return entries == 0 ? 0 : said / static_cast<double>(entries);
}

double Band::share_there() const {
  return entries == 0 ? 0 : there / static_cast<double>(entries);
}

double Band::gap() const {
  return std::abs(mean_said() - share_there());
}

double Band::standard_error() const {
  return entries == 0 ? 0 : std::sqrt(squares) / static_cast<double>(entries);
}

void Calibration::add_job(const std::vector<Entry>& entries) {
  const double count = static_cast<double>(bands.size());
  std::vector<double> surprise(bands.size(), 0.0);
  for (const Entry& entry : entries) {
    const double clamped = std::clamp(entry.said, 0.0, 1.0);
    const auto b = std::min(bands.size() - 1, static_cast<std::size_t>(clamped * count));
    const double there = entry.is_there ? 1 : 0;
    ++bands[b].entries;
    bands[b].said += entry.said;
    bands[b].there += there;
    surprise[b] += there - entry.said;
  }
  for (std::size_t b = 0; b < bands.size(); ++b)
    bands[b].squares += surprise[b] * surprise[b];
  ++jobs;
}

void Calibration::add(const Calibration& other) {
  jobs += other.jobs;
  too_large += other.too_large;
  for (std::size_t b = 0; b < bands.size(); ++b) {
    bands[b].entries += other.bands[b].entries;
    bands[b].said += other.bands[b].said;
    bands[b].there += other.bands[b].there;
    bands[b].squares += other.bands[b].squares;
  }
}

double Calibration::worst_gap() const {
  double worst = 0;
  for (const Band& band : bands)
    if (band.judged()) worst = std::max(worst, band.gap());
  return worst;
}

Result<Calibration> calibrate(const Engine& engine, std::size_t jobs, std::uint64_t seed) {
  const Result<BuiltNetwork> built = build_network(engine, std::nullopt);
  if (!built) return pass_on(built);
  Dice dice(seed);
  Looks looks(*built, dice);
  Calibration out;
  while (out.jobs < jobs) {
    DrawnEngine drawn(built->network, dice);
    const infer::Evidence evidence = looks.at(drawn);
    if (!shows_anything(evidence)) continue;
    const Result<infer::Posterior> answer =
        infer::posterior(built->network, evidence, asked_limits);
    if (!answer) {
      if (++out.too_large > jobs) return pass_on(answer);
      continue;
    }
    if (answer->impossible)
      return fail(Kind::trouble, "job {} drawn from the model is impossible under it", out.jobs);
    out.add_job(entries_of(*built, evidence, *answer, drawn));
  }
  return out;
}

}  // namespace soot::judges
