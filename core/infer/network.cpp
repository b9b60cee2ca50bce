#include "core/infer/network.hpp"

#include <cmath>
#include <numeric>
#include <set>

namespace soot::infer {

namespace {

/// How far a sum of probabilities may stray from 1 by rounding.
constexpr double rounding = 1e-9;

bool is_probability(double value) {
  return value >= 0 && value <= 1;
}

class Checker {
 public:
  explicit Checker(const Network& network) : network_(network) {}

  Problems run() {
    check_frame();
    for (const Cause& cause : network_.causes)
      check_cause(cause);
    for (const Symptom& symptom : network_.symptoms)
      check_symptom(symptom);
    for (const Quantity& quantity : network_.quantities)
      check_quantity(quantity);
    check_instrument_faults();
    for (const InstancePrior& prior : network_.instance_priors)
      check_instance_prior(prior);
    return std::move(problems_);
  }

 private:
  template <class... Args>
  void complain(fmt::format_string<Args...> text, Args&&... args) {
    problems_.push_back(make_problem(Kind::data, text, std::forward<Args>(args)...));
  }

  void check_frame() {
    if (network_.histories.empty()) complain("no history (expected at least one)");
    if (network_.history_prior.size() != network_.histories.size())
      complain("{} history priors for {} histories (expected one each)",
               network_.history_prior.size(), network_.histories.size());
    double sum = 0;
    for (const double prior : network_.history_prior) {
      if (!is_probability(prior))
        complain("history prior {} (expected a number from 0 to 1)", prior);
      sum += prior;
    }
    if (!(std::abs(sum - 1) <= rounding)) complain("history priors sum to {} (expected 1)", sum);
    if (network_.cylinders < 1) complain("{} cylinders (expected at least 1)", network_.cylinders);
  }

  void check_grades(const std::string& whose, const std::vector<double>& grade,
                    std::size_t grades) {
    if (grade.size() != grades) {
      complain("{}: {} numbers (expected one a grade: {})", whose, grade.size(), grades);
      return;
    }
    for (const double one : grade)
      if (!is_probability(one)) {
        complain("{}: {} (expected a number from 0 to 1)", whose, one);
        return;
      }
    const double sum = std::accumulate(grade.begin(), grade.end(), 0.0);
    if (sum > 1 + rounding) complain("{}: sum {} (expected at most 1)", whose, sum);
  }

  void check_effect(const Cause& cause, const Effect& effect) {
    if (effect.term >= network_.terms.size()) {
      complain("cause {}: effect on term {} (expected below {})", cause.id, effect.term,
               network_.terms.size());
      return;
    }
    const std::string whose =
        fmt::format("cause {}: effect on {}", cause.id, network_.terms[effect.term]);
    if (effect.mean.size() != cause.grades || effect.sd.size() != cause.grades)
      complain("{}: {} means and {} sds (expected one a grade: {})", whose, effect.mean.size(),
               effect.sd.size(), cause.grades);
    if (!effect.scatter.empty() && cause.scope == Scope::cylinder)
      complain("{}: scatter of a cylinder's cause (expected of engine-wide causes only)", whose);
    if (!effect.scatter.empty() && effect.scatter.size() != cause.grades)
      complain("{}: {} scatters (expected none or one a grade: {})", whose, effect.scatter.size(),
               cause.grades);
    for (const double mean : effect.mean)
      if (!std::isfinite(mean)) complain("{}: mean {} (expected a finite number)", whose, mean);
    for (const double sd : effect.sd)
      if (!(sd >= 0) || !std::isfinite(sd)) complain("{}: sd {} (expected 0 or more)", whose, sd);
    for (const double scatter : effect.scatter)
      if (!(scatter >= 0) || !std::isfinite(scatter))
        complain("{}: scatter {} (expected 0 or more)", whose, scatter);
  }

  void check_cause(const Cause& cause) {
    if (cause.grades < 1 || cause.grades > most_grades)
      complain("cause {}: {} grades (expected 1 to {})", cause.id, cause.grades, most_grades);
    if (cause.prior.size() != network_.histories.size())
      complain("cause {}: priors for {} histories (expected {})", cause.id, cause.prior.size(),
               network_.histories.size());
    for (const std::vector<double>& row : cause.prior)
      check_grades(fmt::format("cause {}: prior", cause.id), row, cause.grades);
    std::set<std::size_t> terms;
    for (const Effect& effect : cause.effects) {
      check_effect(cause, effect);
      if (!terms.insert(effect.term).second)
        complain("cause {}: two effects on one term (expected one a term)", cause.id);
    }
  }

  void check_symptom(const Symptom& symptom) {
    if (!(symptom.leak >= 0 && symptom.leak < 1))
      complain("symptom {}: leak {} (expected from 0 to below 1)", symptom.id, symptom.leak);
    if (!is_probability(symptom.missed))
      complain("symptom {}: missed {} (expected a number from 0 to 1)", symptom.id, symptom.missed);
    if (!(symptom.imagined >= 0 && symptom.imagined < 1))
      complain("symptom {}: imagined {} (expected from 0 to below 1)", symptom.id,
               symptom.imagined);
    std::set<std::size_t> causes;
    for (const Link& link : symptom.links) {
      if (link.cause >= network_.causes.size()) {
        complain("symptom {}: link to cause {} (expected below {})", symptom.id, link.cause,
                 network_.causes.size());
        continue;
      }
      const Cause& cause = network_.causes[link.cause];
      if (!causes.insert(link.cause).second)
        complain("symptom {}: two links to {} (expected one a cause)", symptom.id, cause.id);
      if (link.strength.size() != cause.grades)
        complain("symptom {}: {} strengths of {} (expected one a grade: {})", symptom.id,
                 link.strength.size(), cause.id, cause.grades);
      for (const double strength : link.strength)
        if (!is_probability(strength))
          complain("symptom {}: strength {} of {} (expected a number from 0 to 1)", symptom.id,
                   strength, cause.id);
    }
  }

  void check_curve(const std::string& whose, const Curve& curve) {
    const auto& points = curve.points();
    if (points.empty()) {
      if (!std::isfinite(curve.slope_at(0)))
        complain("{}: slope {} (expected a finite number)", whose, curve.slope_at(0));
      return;
    }
    if (points.size() < 2) complain("{}: curve of one point (expected at least two)", whose);
    for (std::size_t i = 0; i < points.size(); ++i) {
      if (!std::isfinite(points[i].first) || !std::isfinite(points[i].second))
        complain("{}: curve with a point that is no number (expected finite numbers)", whose);
      if (i > 0 && !(points[i].first > points[i - 1].first))
        complain("{}: curve goes from {} to {} (expected strictly rising magnitudes)", whose,
                 points[i - 1].first, points[i].first);
    }
  }

  void check_quantity(const Quantity& quantity) {
    if (!std::isfinite(quantity.nominal))
      complain("quantity {}: nominal {} (expected a finite number)", quantity.id, quantity.nominal);
    if (!(quantity.spread >= 0) || !std::isfinite(quantity.spread))
      complain("quantity {}: spread {} (expected 0 or more)", quantity.id, quantity.spread);
    std::set<std::size_t> terms;
    for (const Response& response : quantity.responses) {
      if (response.term >= network_.terms.size()) {
        complain("quantity {}: response to term {} (expected below {})", quantity.id, response.term,
                 network_.terms.size());
        continue;
      }
      const std::string whose =
          fmt::format("quantity {}: response to {}", quantity.id, network_.terms[response.term]);
      if (!terms.insert(response.term).second)
        complain("{}: given twice (expected one a term)", whose);
      check_curve(whose, response.shift);
    }
  }

  void check_instrument_faults() {
    double sum = 0;
    for (const InstrumentFault& fault : network_.instrument_faults) {
      if (fault.quantity >= network_.quantities.size()) {
        complain("instrument fault of quantity {} (expected below {})", fault.quantity,
                 network_.quantities.size());
        continue;
      }
      const std::string& id = network_.quantities[fault.quantity].id;
      if (!is_probability(fault.prior))
        complain("instrument of {}: prior {} (expected a number from 0 to 1)", id, fault.prior);
      if (!std::isfinite(fault.mean))
        complain("instrument of {}: mean {} (expected a finite number)", id, fault.mean);
      if (!(fault.sd > 0) || !std::isfinite(fault.sd))
        complain("instrument of {}: sd {} (expected above 0)", id, fault.sd);
      sum += fault.prior;
    }
    if (sum > 1 + rounding)
      complain("priors of wrong instruments sum to {} (expected at most 1)", sum);
  }

  void check_instance_prior(const InstancePrior& prior) {
    if (prior.cause >= network_.causes.size()) {
      complain("prior of an instance of cause {} (expected below {})", prior.cause,
               network_.causes.size());
      return;
    }
    const Cause& cause = network_.causes[prior.cause];
    if (cause.scope == Scope::engine && prior.cylinder != 0)
      complain("prior of {} in cylinder {} (expected no cylinder: it is engine-wide)", cause.id,
               prior.cylinder);
    if (cause.scope == Scope::cylinder &&
        (prior.cylinder < 1 || prior.cylinder > network_.cylinders))
      complain("prior of {} in cylinder {} (expected 1 to {})", cause.id, prior.cylinder,
               network_.cylinders);
    check_grades(fmt::format("prior of {} in cylinder {}", cause.id, prior.cylinder), prior.grade,
                 cause.grades);
  }

  const Network& network_;
  Problems problems_;
};

}  // namespace

Problems faults_of(const Network& network) {
  return Checker(network).run();
}

}  // namespace soot::infer
