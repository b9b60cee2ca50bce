#include "tests/infer/against_oracle.hpp"

#include "core/infer/answer.hpp"
#include "tests/infer/oracle.hpp"
#include "tests/infer/random_model.hpp"

#include <algorithm>
#include <cmath>
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
  // What is rarer hangs on integration nodes that are dropped below e^-80 of the best; nobody is
  // told.
  constexpr double told = 1e-30;
  const auto possible = std::count_if(best.begin(), best.end(), [](double p) { return p > told; });
  const auto found = std::count_if(answer->begin(), answer->end(), [](const auto& explanation) {
    return explanation.probability > told;
  });
  comparer.compare("number of explanations", static_cast<double>(found),
                   static_cast<double>(std::min<std::ptrdiff_t>(5, possible)));
}

}  // namespace

Comparison compare_with_oracle(std::uint64_t seed) {
  const RandomModel model = random_model(seed);
  const OracleAnswer truth = ask_oracle(model.network, model.evidence);
  const auto answer = infer::posterior(model.network, model.evidence);
  if (!answer) throw std::logic_error(to_string(answer.error()));
  Comparer comparer;
  if (truth.impossible != answer->impossible) throw std::logic_error("impossible or not");
  comparer.result.impossible = truth.impossible;
  if (truth.impossible) return comparer.result;
  // A log: its absolute error is the relative error of the evidence.
  comparer.compare("evidence", std::exp(answer->log_evidence - truth.log_evidence), 1);
  comparer.compare("history", answer->history, truth.history);
  for (std::size_t i = 0; i < truth.grades.size(); ++i)
    comparer.compare("grades of " + std::to_string(i), answer->instances[i].grade, truth.grades[i]);
  comparer.compare("any", answer->any, truth.any);
  comparer.compare("none", answer->none, truth.none);
  comparer.compare("instrument", answer->instrument_wrong, truth.instrument_wrong);
  for (std::size_t f = 0; f < truth.not_listed.size(); ++f) {
    if (truth.not_listed[f].has_value() != answer->not_listed[f].has_value())
      throw std::logic_error("not listed");
    if (truth.not_listed[f])
      comparer.compare("not listed", *answer->not_listed[f], *truth.not_listed[f]);
  }
  compare_explanations(model, truth, comparer);
  return comparer.result;
}

}  // namespace soot::tests
