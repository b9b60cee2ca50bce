#include "tests/infer/against_oracle.hpp"

#include "core/infer/answer.hpp"
#include "tests/infer/oracle.hpp"
#include "tests/infer/random_model.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <stdexcept>

namespace soot::tests {

namespace {

/// Below this a probability is noise to any reader; the oracle's own integrals end there too.
constexpr double too_small = 1e-14;

class Comparer {
 public:
  void compare(const std::string& what, double value, double truth) {
    ++result.figures;
    const double off = std::abs(value - truth) / std::max(std::abs(truth), too_small);
    if (!(off <= result.worst)) {
      result.worst = std::isnan(off) ? 1e300 : off;
      result.worst_of = what + " " + std::to_string(value) + " for " + std::to_string(truth);
    }
  }
  void compare(const std::string& what, const std::vector<double>& value,
               const std::vector<double>& truth) {
    if (value.size() != truth.size()) throw std::logic_error(what);
    for (std::size_t i = 0; i < value.size(); ++i)
      compare(what + " " + std::to_string(i), value[i], truth[i]);
  }
  Comparison result;
};

void compare_explanations(const RandomModel& model, const OracleAnswer& truth, Comparer& comparer) {
  infer::ExplanationQuery query;
  query.count = 5;
  query.of_interest.assign(model.network.causes.size(), true);
  for (std::size_t cause = 0; cause < query.of_interest.size(); ++cause)
    if ((cause * 7 + truth.joint.size()) % 3 == 0) query.of_interest[cause] = false;
  const auto instances = oracle_instances(model.network);
  std::map<std::vector<std::size_t>, double> coarse;
  for (const auto& [grades, probability] : truth.joint) {
    std::vector<std::size_t> kept = grades;
    for (std::size_t i = 0; i < kept.size(); ++i)
      if (!query.of_interest[instances[i].cause]) kept[i] = 0;
    coarse[kept] += probability;
  }
  std::vector<double> best;
  for (const auto& [grades, probability] : coarse)
    best.push_back(probability);
  std::sort(best.rbegin(), best.rend());
  const auto answer = infer::explanations(model.network, model.evidence, query);
  if (!answer) throw std::logic_error(to_string(answer.error()));
  for (std::size_t k = 0; k < answer->size(); ++k) {
    const std::string name = "explanation " + std::to_string(k);
    comparer.compare(name, (*answer)[k].probability, best.at(k));
    std::vector<std::size_t> grades(instances.size(), 0);
    for (const infer::Graded& graded : (*answer)[k].present)
      for (std::size_t i = 0; i < instances.size(); ++i)
        if (instances[i].cause == graded.cause && instances[i].cylinder == graded.cylinder)
          grades[i] = graded.grade;
    comparer.compare(name + " of itself", (*answer)[k].probability, coarse[grades]);
  }
  // What is rarer hangs on integration nodes that are dropped below e^-80 of the best, so that
  // either side may have it or not; nobody is told of it.
  constexpr double told = 1e-30;
  const auto possible = std::count_if(best.begin(), best.end(), [](double p) { return p > told; });
  const auto found = std::count_if(answer->begin(), answer->end(), [](const auto& explanation) {
    return explanation.probability > told;
  });
  comparer.compare("number of explanations", static_cast<double>(found),
                   static_cast<double>(std::min<std::ptrdiff_t>(5, possible)));
}

void compare_posterior(const infer::Posterior& answer, const OracleAnswer& truth,
                       Comparer& comparer) {
  // A log: its absolute error is the relative error of the evidence.
  comparer.compare("evidence", std::exp(answer.log_evidence - truth.log_evidence), 1);
  comparer.compare("history", answer.history, truth.history);
  for (std::size_t i = 0; i < truth.grades.size(); ++i) {
    const infer::GradeRow& grade = answer.instances[i].grade;
    comparer.compare("grades of " + std::to_string(i), {grade.begin(), grade.end()},
                     truth.grades[i]);
  }
  comparer.compare("any", answer.any, truth.any);
  comparer.compare("none", answer.none, truth.none);
  comparer.compare("instrument", answer.instrument_wrong, truth.instrument_wrong);
  for (std::size_t f = 0; f < truth.not_listed.size(); ++f) {
    if (truth.not_listed[f].has_value() != answer.not_listed[f].has_value())
      throw std::logic_error("not listed");
    if (truth.not_listed[f])
      comparer.compare("not listed", *answer.not_listed[f], *truth.not_listed[f]);
  }
}

/// Of some quantity, on some cylinder if it has them, cut at odd places about the sound value.
std::vector<infer::WhatIf> bands_of(const infer::Network& network, std::uint64_t seed) {
  const std::size_t quantity = seed % network.quantities.size();
  const bool is_engines = network.quantities[quantity].scope == infer::Scope::engine;
  const int cylinder = is_engines ? 0 : 1 + static_cast<int>(seed % 3) % network.cylinders;
  const infer::Normal sound = infer::expected_reading(network, quantity, cylinder, {});
  const double width = sound.sd + 0.1;  // some spread nothing at all
  const double infinity = std::numeric_limits<double>::infinity();
  const double cuts[] = {-infinity, -9, -1.3, 0.4, 4, infinity};
  std::vector<infer::WhatIf> bands;
  for (std::size_t k = 0; k + 1 < std::size(cuts); ++k)
    bands.push_back({{},
                     {{quantity, cylinder, sound.mean + cuts[k] * width,
                       sound.mean + cuts[k + 1] * width, 0.4 * width, 0}}});
  return bands;
}

}  // namespace

Comparison compare_bands_with_oracle(std::uint64_t seed) {
  const RandomModel model = random_model(seed);
  Comparer comparer;
  const auto& readings = model.evidence.readings;
  const bool has_bounds = std::any_of(readings.begin(), readings.end(),
                                      [](const infer::Reading& one) { return !one.is_exact(); });
  comparer.result.impossible = model.network.quantities.empty() || has_bounds ||
                               ask_oracle(model.network, model.evidence).impossible;
  if (comparer.result.impossible) return comparer.result;
  const std::vector<infer::WhatIf> bands = bands_of(model.network, seed);
  const auto outcomes = infer::what_ifs(model.network, model.evidence, bands);
  if (!outcomes) throw std::logic_error(to_string(outcomes.error()));
  for (std::size_t k = 0; k < bands.size(); ++k) {
    infer::Evidence with = model.evidence;
    with.readings.push_back(bands[k].readings[0]);
    const OracleAnswer truth = ask_oracle(model.network, with);
    const infer::Posterior& answer = (*outcomes)[k].posterior;
    // Nobody is told of what is rarer, and the oracle's own integrals end there.
    if (truth.impossible || (*outcomes)[k].probability < 1e-12) continue;
    compare_posterior(answer, truth, comparer);
  }
  return comparer.result;
}

Comparison compare_with_oracle(std::uint64_t seed) {
  const RandomModel model = random_model(seed);
  const OracleAnswer truth = ask_oracle(model.network, model.evidence);
  const auto answer = infer::posterior(model.network, model.evidence);
  if (!answer) throw std::logic_error(to_string(answer.error()));
  Comparer comparer;
  if (truth.impossible != answer->impossible) throw std::logic_error("impossible or not");
  comparer.result.impossible = truth.impossible;
  if (truth.impossible) return comparer.result;
  compare_posterior(*answer, truth, comparer);
  compare_explanations(model, truth, comparer);
  return comparer.result;
}

}  // namespace soot::tests
