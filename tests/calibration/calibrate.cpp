#include "tests/calibration/calibrate.hpp"

#include "core/infer/answer.hpp"
#include "core/workbench/inquiry.hpp"
#include "tests/calibration/sampler.hpp"

#include <algorithm>
#include <cmath>
#include <set>

namespace soot::judges {
namespace {

constexpr std::size_t signs = 6;
constexpr std::size_t most_quantities = 2;

double instrument_of(const Quantity& quantity, double value) {
  const double sd = std::hypot(quantity.instrument, quantity.instrument_share / 100 * value);
  return sd > 0 ? sd : 1e-3;
}

class Jobs {
 public:
  Jobs(const BuiltNetwork& built, Dice& dice) : built_(built), net_(built.network), dice_(dice) {
    for (std::size_t q = 0; q < built.quantities.size(); ++q)
      if (!built.quantities[q]->is_coarse()) readable_.push_back(q);
  }

  // What a person enters of this engine.
  infer::Evidence look_at(DrawnEngine& engine) {
    infer::Evidence evidence;
    if (dice_.chance(0.5)) evidence.history = engine.history();
    std::set<std::pair<std::size_t, int>> seen;
    while (seen.size() < signs) {
      const std::size_t s = dice_.below(net_.symptoms.size());
      const int cylinder = place(net_.symptoms[s].scope);
      if (!seen.insert({s, cylinder}).second) continue;
      evidence.findings.push_back({s, cylinder, engine.report(s, cylinder), std::nullopt});
    }
    std::set<std::size_t> read;
    for (std::size_t count = dice_.below(most_quantities + 1); count > 0; --count) {
      const std::size_t q = readable_[dice_.below(readable_.size())];
      if (read.insert(q).second) gauge(engine, q, evidence);
    }
    return evidence;
  }

 private:
  int place(infer::Scope scope) {
    return scope == infer::Scope::engine
               ? 0
               : 1 + static_cast<int>(dice_.below(static_cast<std::size_t>(net_.cylinders)));
  }

  // One cylinder, or all of them.
  void gauge(DrawnEngine& engine, std::size_t q, infer::Evidence& evidence) {
    const bool of_engine = net_.quantities[q].scope == infer::Scope::engine;
    const bool all = !of_engine && dice_.chance(0.5);
    const int from = all ? 1 : place(net_.quantities[q].scope);
    const int to = all ? net_.cylinders : from;
    for (int cylinder = from; cylinder <= to; ++cylinder) {
      const double sd = instrument_of(*built_.quantities[q], net_.quantities[q].nominal);
      const double value = engine.read(q, cylinder, sd);
      evidence.readings.push_back({q, cylinder, value, value, sd, 0});
    }
  }

  const BuiltNetwork& built_;
  const infer::Network& net_;
  Dice& dice_;
  std::vector<std::size_t> readable_;
};

bool shows_anything(const infer::Evidence& evidence) {
  return std::any_of(evidence.findings.begin(), evidence.findings.end(),
                     [](const infer::Finding& finding) { return finding.present; });
}

void count(const BuiltNetwork& built, const infer::Evidence& evidence,
           const infer::Posterior& answer, const DrawnEngine& engine, Calibration& out) {
  for (std::size_t c = 0; c < built.causes.size(); ++c)
    out.add(answer.any[c], engine.has(c));
  for (std::size_t f = 0; f < answer.instrument_wrong.size(); ++f) {
    const std::size_t quantity = built.network.instrument_faults[f].quantity;
    if (std::any_of(evidence.readings.begin(), evidence.readings.end(),
                    [&](const infer::Reading& r) { return r.quantity == quantity; }))
      out.add(answer.instrument_wrong[f], engine.instrument_is_wrong(f));
  }
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

void Calibration::add(double probability, bool is_there) {
  const double count = static_cast<double>(bands.size());
  const double clamped = std::clamp(probability, 0.0, 1.0);
  Band& band = bands[std::min(bands.size() - 1, static_cast<std::size_t>(clamped * count))];
  ++band.entries;
  band.said += probability;
  band.there += is_there ? 1 : 0;
}

void Calibration::add(const Calibration& other) {
  jobs += other.jobs;
  too_large += other.too_large;
  for (std::size_t b = 0; b < bands.size(); ++b) {
    bands[b].entries += other.bands[b].entries;
    bands[b].said += other.bands[b].said;
    bands[b].there += other.bands[b].there;
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
  Jobs looks(*built, dice);
  Calibration out;
  while (out.jobs < jobs) {
    DrawnEngine drawn(built->network, dice);
    const infer::Evidence evidence = looks.look_at(drawn);
    if (!shows_anything(evidence)) continue;
    const Result<infer::Posterior> answer =
        infer::posterior(built->network, evidence, asked_limits);
    if (!answer) {
      if (++out.too_large > jobs) return pass_on(answer);
      continue;
    }
    if (answer->impossible)
      return fail(Kind::trouble, "job {} drawn from the model is impossible under it", out.jobs);
    count(*built, evidence, *answer, drawn, out);
    ++out.jobs;
  }
  return out;
}

}  // namespace soot::judges
