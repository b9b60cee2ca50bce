#include "tests/infer/random_model.hpp"

#include "core/infer/dice.hpp"

#include <cmath>

namespace soot::tests {

namespace {

using infer::Dice;
using infer::Scope;

class Builder {
 public:
  explicit Builder(std::uint64_t seed) : dice_(seed) {}

  RandomModel build() {
    numeric_ = dice_.chance(0.35);  // bounds or a curve: the oracle must integrate, keep it small
    add_frame();
    add_causes();
    add_symptoms();
    add_quantities();
    add_extras();
    add_evidence();
    return std::move(model_);
  }

 private:
  infer::Network& network() { return model_.network; }

  std::vector<double> grade_priors(std::size_t grades) {
    std::vector<double> result;
    for (std::size_t g = 0; g < grades; ++g)
      result.push_back(dice_.chance(0.05) ? 0 : std::pow(10.0, dice_.real(-4, -0.7)));
    return result;
  }

  void add_frame() {
    network().cylinders = dice_.whole(1, 3);
    const int histories = dice_.whole(1, 3);
    double sum = 0;
    for (int h = 0; h < histories; ++h) {
      network().histories.push_back("history-" + std::to_string(h));
      network().history_prior.push_back(dice_.real(0.1, 1));
      sum += network().history_prior.back();
    }
    for (double& prior : network().history_prior)
      prior /= sum;
    const int terms = dice_.whole(1, 3);
    for (int t = 0; t < terms; ++t)
      network().terms.push_back("term-" + std::to_string(t));
  }

  infer::Effect effect(std::size_t term, std::size_t grades, Scope scope) {
    infer::Effect result;
    result.term = term;
    const bool scattered = scope == Scope::engine && dice_.chance(0.25);
    for (std::size_t g = 0; g < grades; ++g) {
      result.mean.push_back(dice_.real(-6, 6));
      result.sd.push_back(dice_.chance(0.3) ? 0 : dice_.real(0.2, 3));
      if (scattered) result.scatter.push_back(dice_.chance(0.3) ? 0 : dice_.real(0.2, 1.5));
    }
    return result;
  }

  void add_causes() {
    std::size_t joint = 1;
    const std::size_t most = numeric_ ? 60 : 2500;
    for (int tries = 0; tries < 7; ++tries) {
      infer::Cause cause;
      cause.scope = dice_.chance(0.45) ? Scope::engine : Scope::cylinder;
      cause.grades = static_cast<std::size_t>(dice_.whole(1, 3));
      std::size_t grown = joint;
      for (int c = 0; c < (cause.scope == Scope::engine ? 1 : network().cylinders); ++c)
        grown *= cause.grades + 1;
      if (grown > most) continue;
      joint = grown;
      cause.id = "cause-" + std::to_string(network().causes.size());
      for (std::size_t h = 0; h < network().histories.size(); ++h)
        cause.prior.push_back(grade_priors(cause.grades));
      for (std::size_t term = 0; term < network().terms.size(); ++term)
        if (dice_.chance(0.45)) cause.effects.push_back(effect(term, cause.grades, cause.scope));
      network().causes.push_back(std::move(cause));
    }
  }

  void add_symptoms() {
    const int symptoms = dice_.whole(0, 4);
    for (int s = 0; s < symptoms; ++s) {
      infer::Symptom symptom;
      symptom.id = "symptom-" + std::to_string(s);
      symptom.scope = dice_.chance(0.5) ? Scope::engine : Scope::cylinder;
      symptom.leak = dice_.chance(0.1) ? 0 : dice_.real(0.001, 0.2);
      if (dice_.chance(0.3)) symptom.missed = dice_.real(0, 0.4);
      if (dice_.chance(0.3)) symptom.imagined = dice_.real(0, 0.2);
      for (std::size_t cause = 0; cause < network().causes.size(); ++cause) {
        if (dice_.chance(0.35)) continue;
        infer::Link link{cause, {}};
        for (std::size_t g = 0; g < network().causes[cause].grades; ++g)
          link.strength.push_back(dice_.chance(0.1)    ? 0
                                  : dice_.chance(0.05) ? 1
                                                       : dice_.real(0, 1));
        symptom.links.push_back(std::move(link));
      }
      network().symptoms.push_back(std::move(symptom));
    }
  }

  infer::Curve curve() {
    const bool bent = numeric_ && !has_curve_ && dice_.chance(0.5);
    if (!bent) return infer::Curve(dice_.chance(0.1) ? 0 : dice_.real(-1.5, 1.5));
    has_curve_ = true;
    std::vector<std::pair<double, double>> points;
    double magnitude = dice_.real(-6, -2);
    double shift = dice_.real(-2, 2);
    for (int k = dice_.whole(2, 5); k > 0; --k) {
      points.emplace_back(magnitude, shift);
      magnitude += dice_.real(1, 4);
      shift += dice_.real(-0.5, 4);
    }
    return infer::Curve(points);
  }

  void add_quantities() {
    const int quantities = dice_.whole(0, 3);
    for (int q = 0; q < quantities; ++q) {
      infer::Quantity quantity;
      quantity.id = "quantity-" + std::to_string(q);
      quantity.scope = dice_.chance(0.2) ? Scope::engine : Scope::cylinder;
      quantity.nominal = dice_.real(-10, 30);
      quantity.spread = dice_.chance(0.15) ? 0 : dice_.real(0.1, 1);
      for (std::size_t term = 0; term < network().terms.size(); ++term)
        if (dice_.chance(0.65)) quantity.responses.push_back({term, curve()});
      network().quantities.push_back(std::move(quantity));
    }
  }

  void add_extras() {
    if (!network().quantities.empty() && dice_.chance(0.4))
      for (int f = dice_.whole(1, 2); f > 0; --f)
        network().instrument_faults.push_back({dice_.below(network().quantities.size()),
                                               dice_.real(0.001, 0.1), dice_.real(-2, 2),
                                               dice_.real(0.5, 4)});
    if (!network().causes.empty() && dice_.chance(0.3)) {
      const std::size_t cause = dice_.below(network().causes.size());
      const bool engine = network().causes[cause].scope == Scope::engine;
      network().instance_priors.push_back({cause, engine ? 0 : dice_.whole(1, network().cylinders),
                                           grade_priors(network().causes[cause].grades)});
    }
  }

  int cylinder_for(Scope scope) {
    return scope == Scope::engine ? 0 : dice_.whole(1, network().cylinders);
  }

  void add_evidence() {
    infer::Evidence& evidence = model_.evidence;
    if (dice_.chance(0.4)) evidence.history = dice_.below(network().histories.size());
    for (int f = network().symptoms.empty() ? 0 : dice_.whole(0, 5); f > 0; --f) {
      infer::Finding finding;
      finding.symptom = dice_.below(network().symptoms.size());
      finding.cylinder = cylinder_for(network().symptoms[finding.symptom].scope);
      finding.present = dice_.chance(0.6);
      if (dice_.chance(0.3)) finding.unsure = infer::Unsure{dice_.real(0, 0.5), dice_.real(0, 0.4)};
      evidence.findings.push_back(finding);
    }
    int bounds = !numeric_ ? 0 : has_curve_ ? 1 : 2;
    for (int r = network().quantities.empty() ? 0 : dice_.whole(0, numeric_ ? 4 : 7); r > 0; --r) {
      infer::Reading reading;
      reading.quantity = dice_.below(network().quantities.size());
      reading.cylinder = cylinder_for(network().quantities[reading.quantity].scope);
      reading.sd = dice_.real(0.2, 0.8);
      if (dice_.chance(0.2)) reading.shift = dice_.real(-1, 1);
      const double value = network().quantities[reading.quantity].nominal + dice_.real(-5, 5);
      reading.lower = reading.upper = value;
      if (bounds > 0 && dice_.chance(0.5)) {
        --bounds;
        const int kind = dice_.whole(0, 2);
        if (kind == 0) reading.upper = std::numeric_limits<double>::infinity();
        if (kind == 1) reading.lower = -std::numeric_limits<double>::infinity();
        if (kind == 2) reading.upper = value + dice_.real(0.05, 3);
      }
      evidence.readings.push_back(reading);
    }
  }

  Dice dice_;
  RandomModel model_;
  bool numeric_ = false;
  bool has_curve_ = false;
};

}  // namespace

RandomModel random_model(std::uint64_t seed) {
  return Builder(seed).build();
}

}  // namespace soot::tests
