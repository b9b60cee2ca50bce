#include "tests/infer/oracle.hpp"

#include "tests/infer/oracle_readings.hpp"

#include <cmath>

namespace soot::tests {

namespace {

using Real = long double;

/// Reports of one symptom and cylinder taken together.
struct Reported {
  Real k0 = 1, k1 = 1;
};

class Count {
 public:
  Count(const infer::Network& network, const infer::Evidence& evidence)
      : network_(network),
        evidence_(evidence),
        instances_(oracle_instances(network)),
        grades_(instances_.size(), 0) {
    for (const infer::Finding& finding : evidence.findings) {
      Reported& together = reported_[{finding.symptom, finding.cylinder}];
      const Real missed = finding.unsure ? finding.unsure->missed : 0;
      const Real imagined = finding.unsure ? finding.unsure->imagined : 0;
      together.k0 *= finding.present ? imagined : 1 - imagined;
      together.k1 *= finding.present ? 1 - missed : missed;
    }
    history_.resize(network.histories.size());
    sums_.resize(instances_.size());
    for (std::size_t i = 0; i < instances_.size(); ++i)
      sums_[i].resize(network.causes[instances_[i].cause].grades + 1);
    any_.resize(network.causes.size());
    none_.resize(network.causes.size());
    not_listed_.resize(evidence.findings.size());
    wrong_.resize(network.instrument_faults.size());
  }

  OracleAnswer run() {
    over_grades(0);
    OracleAnswer answer;
    answer.impossible = !(total_ > 0);
    if (answer.impossible) return answer;
    answer.log_evidence = static_cast<double>(std::log(total_));
    const auto share = [&](const std::vector<Real>& sums) {
      std::vector<double> result;
      for (const Real sum : sums)
        result.push_back(static_cast<double>(sum / total_));
      return result;
    };
    answer.history = share(history_);
    for (const auto& row : sums_)
      answer.grades.push_back(share(row));
    answer.any = share(any_);
    answer.none = share(none_);
    answer.instrument_wrong = share(wrong_);
    for (std::size_t f = 0; f < evidence_.findings.size(); ++f)
      answer.not_listed.push_back(evidence_.findings[f].present
                                      ? std::optional<double>(not_listed_[f] / total_)
                                      : std::nullopt);
    for (const auto& [grades, weight] : joint_)
      answer.joint[grades] = static_cast<double>(weight / total_);
    return answer;
  }

 private:
  void over_grades(std::size_t i) {
    if (i == instances_.size()) {
      count();
      return;
    }
    for (std::size_t g = 0; g <= network_.causes[instances_[i].cause].grades; ++g) {
      grades_[i] = g;
      over_grades(i + 1);
    }
    grades_[i] = 0;
  }

  Real prior(std::size_t history) const {
    Real product = 1;
    for (std::size_t i = 0; i < instances_.size(); ++i) {
      const std::vector<double>* above = &network_.causes[instances_[i].cause].prior[history];
      for (const infer::InstancePrior& own : network_.instance_priors)
        if (own.cause == instances_[i].cause && own.cylinder == instances_[i].cylinder)
          above = &own.grade;
      Real sound = 1;
      for (const double one : *above)
        sound -= one;
      product *= grades_[i] == 0 ? sound : (*above)[grades_[i] - 1];
    }
    return product;
  }

  /// P(no report of the symptom though it was looked for), leak of the truth alone apart.
  Real quiet(std::size_t symptom, int cylinder) const {
    Real product = 1;
    for (std::size_t i = 0; i < instances_.size(); ++i) {
      if (grades_[i] == 0) continue;
      if (cylinder != 0 && instances_[i].cylinder != 0 && instances_[i].cylinder != cylinder)
        continue;
      for (const infer::Link& link : network_.symptoms[symptom].links)
        if (link.cause == instances_[i].cause)
          product *= 1 - static_cast<Real>(link.strength[grades_[i] - 1]) *
                             (1 - static_cast<Real>(network_.symptoms[symptom].missed));
    }
    return product;
  }

  void count() {
    std::vector<Real> by_history;
    Real prior_sum = 0;
    for (std::size_t h = 0; h < network_.histories.size(); ++h) {
      Real weight = evidence_.history ? (*evidence_.history == h ? 1 : 0)
                                      : static_cast<Real>(network_.history_prior[h]);
      if (weight > 0) weight *= prior(h);
      by_history.push_back(weight);
      prior_sum += weight;
    }
    if (prior_sum == 0) return;
    Real symptoms = 1;
    std::map<std::pair<std::size_t, int>, Real> leak_only;
    for (const auto& [key, report] : reported_) {
      const infer::Symptom& symptom = network_.symptoms[key.first];
      const Real none_listed = quiet(key.first, key.second);
      const Real absent = (1 - static_cast<Real>(symptom.leak)) *
                          (1 - static_cast<Real>(symptom.imagined)) * none_listed;
      const Real here = report.k0 * absent + report.k1 * (1 - absent);
      symptoms *= here;
      leak_only[key] = here > 0 ? report.k1 * symptom.leak * none_listed / here : 0;
    }
    if (symptoms == 0) return;
    Real no_fault = 1;
    Real readings = 0;
    for (std::size_t f = 0; f < network_.instrument_faults.size(); ++f) {
      const infer::InstrumentFault& fault = network_.instrument_faults[f];
      bool used = false;
      for (const infer::Reading& reading : evidence_.readings)
        used = used || reading.quantity == fault.quantity;
      if (!used) continue;
      no_fault -= fault.prior;
      if (fault.prior == 0) continue;
      const Real here =
          fault.prior * oracle_reading_density(network_, evidence_, instances_, grades_, f);
      readings += here;
      wrong_[f] += prior_sum * symptoms * here;
    }
    readings +=
        no_fault * oracle_reading_density(network_, evidence_, instances_, grades_, std::nullopt);
    add(by_history, prior_sum * symptoms * readings, symptoms * readings, leak_only);
  }

  void add(const std::vector<Real>& by_history, Real weight, Real likelihood,
           const std::map<std::pair<std::size_t, int>, Real>& leak_only) {
    total_ += weight;
    for (std::size_t h = 0; h < by_history.size(); ++h)
      history_[h] += by_history[h] * likelihood;
    std::vector<bool> present(network_.causes.size(), false);
    for (std::size_t i = 0; i < instances_.size(); ++i) {
      sums_[i][grades_[i]] += weight;
      if (grades_[i] > 0) present[instances_[i].cause] = true;
    }
    for (std::size_t cause = 0; cause < present.size(); ++cause)
      (present[cause] ? any_ : none_)[cause] += weight;
    for (std::size_t f = 0; f < evidence_.findings.size(); ++f)
      if (evidence_.findings[f].present)
        not_listed_[f] +=
            weight * leak_only.at({evidence_.findings[f].symptom, evidence_.findings[f].cylinder});
    joint_[grades_] += weight;
  }

  const infer::Network& network_;
  const infer::Evidence& evidence_;
  std::vector<OracleInstance> instances_;
  std::vector<std::size_t> grades_;
  std::map<std::pair<std::size_t, int>, Reported> reported_;
  Real total_ = 0;
  std::vector<Real> history_, any_, none_, not_listed_, wrong_;
  std::vector<std::vector<Real>> sums_;
  std::map<std::vector<std::size_t>, Real> joint_;
};

}  // namespace

std::vector<OracleInstance> oracle_instances(const infer::Network& network) {
  std::vector<OracleInstance> instances;
  for (const bool engine : {true, false})
    for (std::size_t cause = 0; cause < network.causes.size(); ++cause) {
      if ((network.causes[cause].scope == infer::Scope::engine) != engine) continue;
      for (int c = 1; c <= (engine ? 1 : network.cylinders); ++c)
        instances.push_back({cause, engine ? 0 : c});
    }
  return instances;
}

OracleAnswer ask_oracle(const infer::Network& network, const infer::Evidence& evidence) {
  return Count(network, evidence).run();
}

}  // namespace soot::tests
