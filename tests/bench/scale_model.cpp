#include "tests/bench/scale_model.hpp"

#include "core/infer/answer.hpp"
#include "core/infer/dice.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <string>

namespace soot::tests {

namespace {

using infer::Curve;
using infer::Dice;
using infer::Effect;
using infer::Finding;
using infer::Graded;
using infer::Scope;

constexpr std::size_t engine_causes = 71, cylinder_causes = 64;
constexpr std::size_t engine_symptoms = 36, cylinder_symptoms = 18;

enum Term : std::size_t { late, leak, opening };
enum Measured : std::size_t { depth, spill, compression, nozzle };

struct Action {
  Term term;
  double size, sd;  ///< of the slightest grade
};
/// The first causes act on readings: four engine-wide and five of a cylinder on the timing, one and
/// four on the compression, one and three on the opening pressure.
const Action engine_actions[] = {{late, 8, 0},     {late, 1.5, 0.6}, {late, -1.2, 0.5},
                                 {late, 2.5, 1.2}, {leak, 5, 2},     {opening, -25, 8}};
const Action cylinder_actions[] = {{late, 1.0, 0.4},   {late, -1.0, 0.4}, {late, 0.6, 0.3},
                                   {late, 1.8, 0.8},   {late, -0.5, 0.2}, {leak, 6, 2.5},
                                   {leak, 4, 1.5},     {leak, 9, 4},      {leak, 3, 1.5},
                                   {opening, -30, 10}, {opening, 25, 12}, {opening, -60, 25}};

class ScaleBuilder {
 public:
  ScaleBuilder(const Scale& scale, std::uint64_t seed) : scale_(scale), dice_(seed) {}

  ScaleModel build() {
    infer::Network& net = model_.network;
    net.histories = {"a", "b", "c", "d", "e"};
    net.history_prior = {0.1, 0.15, 0.3, 0.1, 0.35};
    net.cylinders = scale_.cylinders;
    net.terms = {"late", "leak", "opening"};
    for (std::size_t i = 0; i < engine_causes; ++i)
      add_cause(Scope::engine, i < std::size(engine_actions) ? &engine_actions[i] : nullptr);
    for (std::size_t i = 0; i < cylinder_causes; ++i)
      add_cause(Scope::cylinder, i < std::size(cylinder_actions) ? &cylinder_actions[i] : nullptr);
    for (std::size_t s = 0; s < engine_symptoms + cylinder_symptoms; ++s)
      add_symptom(s < engine_symptoms ? Scope::engine : Scope::cylinder);
    net.quantities = {{"depth", Scope::cylinder, 29, 0.025, {{late, Curve(0.1)}}},
                      {"spill", Scope::cylinder, 15, 0.2, {{late, Curve(1.0)}}},
                      {"compression", Scope::cylinder, 30, 1.2, {{leak, Curve(-1.0)}}},
                      {"nozzle", Scope::cylinder, 180, 5, {{opening, Curve(1.0)}}}};
    if (scale_.instruments)
      net.instrument_faults = {{depth, 0.004, 0, 0.3},
                               {spill, 0.004, 0, 2},
                               {compression, 0.004, 0, 5},
                               {nozzle, 0.004, 0, 20}};
    draw_truth();
    add_findings();
    add_readings();
    return std::move(model_);
  }

 private:
  void add_cause(Scope scope, const Action* action) {
    infer::Cause cause;
    cause.id = "cause-" + std::to_string(model_.network.causes.size());
    cause.scope = scope;
    cause.grades = dice_.chance(0.3) ? 1 : dice_.chance(0.85) ? 2 : 4;
    if (action != nullptr) cause.grades = 2;
    const double common = std::pow(10.0, dice_.real(-3.2, scope == Scope::engine ? -1.7 : -2.2));
    for (std::size_t h = 0; h < model_.network.histories.size(); ++h) {
      cause.prior.emplace_back();
      const double here = common * std::pow(10.0, dice_.real(-0.5, 0.5));
      for (std::size_t g = 0; g < cause.grades; ++g)
        cause.prior.back().push_back(here * (g % 2 == 0 ? 0.7 : 0.3));
    }
    if (action != nullptr) {
      const bool tooth = action->sd == 0;  // one late, one early
      Effect effect{action->term,
                    {action->size, action->size * (tooth ? -1 : 2.5)},
                    {action->sd, action->sd * 2},
                    {}};
      if (scale_.instruments && scope == Scope::engine && !tooth && dice_.chance(0.4))
        effect.scatter = {action->sd * 0.3, action->sd * 0.5};
      cause.effects.push_back(std::move(effect));
    }
    model_.network.causes.push_back(std::move(cause));
  }

  void add_symptom(Scope scope) {
    infer::Symptom symptom;
    symptom.id = "symptom-" + std::to_string(model_.network.symptoms.size());
    symptom.scope = scope;
    symptom.leak = dice_.real(0.005, 0.05);
    symptom.missed = dice_.chance(0.5) ? dice_.real(0.02, 0.2) : 0;
    symptom.imagined = dice_.real(0, 0.02);
    for (std::size_t cause = 0; cause < model_.network.causes.size(); ++cause) {
      if (!dice_.chance(scale_.heard)) continue;
      infer::Link link{cause, {}};
      const double strength = dice_.real(0.05, 0.7);
      for (std::size_t g = 0; g < model_.network.causes[cause].grades; ++g)
        link.strength.push_back(g % 2 == 0 ? strength : std::min(0.95, strength * 1.5));
      symptom.links.push_back(std::move(link));
    }
    model_.network.symptoms.push_back(std::move(symptom));
  }

  void draw_truth() {
    const std::size_t common = dice_.below(engine_causes);
    truth_.push_back({common, 0, 1});
    const int cylinder = dice_.whole(1, scale_.cylinders);
    truth_.push_back({engine_causes + dice_.below(cylinder_causes), cylinder, 1});
    truth_.push_back({engine_causes + dice_.below(std::size(cylinder_actions)), cylinder, 1});
  }

  /// The looks with the greatest chance to be there are there, drawn with some noise.
  void add_findings() {
    struct Look {
      std::size_t symptom;
      int cylinder;
      double chance;
    };
    std::vector<Look> engine, cylinder;
    for (std::size_t s = 0; s < model_.network.symptoms.size(); ++s) {
      const bool of_engine = model_.network.symptoms[s].scope == Scope::engine;
      for (int c = of_engine ? 0 : 1; c <= (of_engine ? 0 : scale_.cylinders); ++c)
        (of_engine ? engine : cylinder)
            .push_back(
                {s, c,
                 infer::chance_of_symptom(model_.network, s, c, truth_) * dice_.real(0.5, 1.5)});
    }
    const auto likelier = [](const Look& a, const Look& b) { return a.chance > b.chance; };
    std::stable_sort(engine.begin(), engine.end(), likelier);
    std::stable_sort(cylinder.begin(), cylinder.end(), likelier);
    const std::size_t of_cylinder = scale_.present * 3 / 10;
    const std::size_t of_engine = std::min(engine.size(), scale_.present - of_cylinder);
    std::size_t absent = scale_.absent;
    for (auto* looks : {&engine, &cylinder}) {
      const std::size_t present = looks == &engine ? of_engine : scale_.present - of_engine;
      const std::size_t quiet = looks == &engine ? absent / 2 : absent - absent / 2;
      for (std::size_t i = 0; i < looks->size(); ++i) {
        const Finding finding{(*looks)[i].symptom, (*looks)[i].cylinder, i < present, {}};
        if (i < present || i >= looks->size() - std::min(looks->size() - present, quiet))
          model_.evidence.findings.push_back(finding);
        else
          model_.unmade_looks.push_back({finding.symptom, finding.cylinder, true, std::nullopt});
      }
    }
    if (scale_.known_history) model_.evidence.history = 2;
  }

  void add_readings() {
    const double sd[] = {0.02, 0.5, 0.9, 4};
    std::vector<std::pair<std::size_t, int>> order;
    for (const std::size_t q : {depth, spill, compression, nozzle})
      for (int c = 1; c <= scale_.cylinders; ++c)
        order.emplace_back(q, c);
    // The last two of twenty-four, and what comes after, repeat the first.
    constexpr std::size_t once = 22;
    for (std::size_t i = 0; i < scale_.readings; ++i) {
      const auto [q, c] = order[(i < once ? i : i - once) % order.size()];
      const infer::Normal normal = infer::expected_reading(model_.network, q, c, truth_);
      const double value = normal.mean + normal.sd * dice_.normal() + sd[q] * dice_.normal();
      model_.evidence.readings.push_back({q, c, value, value, sd[q], 0});
    }
    const double infinity = std::numeric_limits<double>::infinity();
    // Ten cylinders' worth of each quantity: whatever could still be taken, or taken again.
    for (std::size_t i = 0; i < 60; ++i) {
      const std::size_t q = i % 4;
      const int c = static_cast<int>(i / 4) % scale_.cylinders + 1;
      model_.unmade_readings.push_back({q, c, -infinity, infinity, sd[q], 0});
    }
  }

  Scale scale_;
  Dice dice_;
  ScaleModel model_;
  std::vector<Graded> truth_;
};

}  // namespace

ScaleModel scale_model(const Scale& scale, std::uint64_t seed) {
  return ScaleBuilder(scale, seed).build();
}

}  // namespace soot::tests
