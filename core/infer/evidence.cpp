#include "core/infer/evidence.hpp"

#include <cmath>

namespace soot::infer {

namespace {

/// Nothing if the cylinder fits the scope, else what was expected.
std::string cylinder_fault(Scope scope, int cylinder, int cylinders) {
  if (scope == Scope::engine)
    return cylinder == 0 ? "" : "expected no cylinder: it is of the whole engine";
  return cylinder >= 1 && cylinder <= cylinders ? "" : fmt::format("expected 1 to {}", cylinders);
}

void check_finding(const Network& network, const Finding& finding, Problems& problems) {
  if (finding.symptom >= network.symptoms.size()) {
    problems.push_back(make_problem(Kind::data, "finding of symptom {} (expected below {})",
                                    finding.symptom, network.symptoms.size()));
    return;
  }
  const Symptom& symptom = network.symptoms[finding.symptom];
  const std::string fault = cylinder_fault(symptom.scope, finding.cylinder, network.cylinders);
  if (!fault.empty())
    problems.push_back(make_problem(Kind::data, "finding {} in cylinder {} ({})", symptom.id,
                                    finding.cylinder, fault));
  if (!finding.unsure) return;
  const Unsure& unsure = *finding.unsure;
  if (!(unsure.missed >= 0 && unsure.imagined >= 0 && unsure.missed + unsure.imagined < 1))
    problems.push_back(make_problem(
        Kind::data, "finding {}: unsure with missed {} and imagined {} (expected a sum below 1)",
        symptom.id, unsure.missed, unsure.imagined));
}

void check_reading(const Network& network, const Reading& reading, Problems& problems) {
  if (reading.quantity >= network.quantities.size()) {
    problems.push_back(make_problem(Kind::data, "reading of quantity {} (expected below {})",
                                    reading.quantity, network.quantities.size()));
    return;
  }
  const Quantity& quantity = network.quantities[reading.quantity];
  const std::string fault = cylinder_fault(quantity.scope, reading.cylinder, network.cylinders);
  if (!fault.empty())
    problems.push_back(make_problem(Kind::data, "reading {} in cylinder {} ({})", quantity.id,
                                    reading.cylinder, fault));
  if (!(reading.lower <= reading.upper) || (reading.is_exact() && std::isinf(reading.lower)))
    problems.push_back(make_problem(Kind::data,
                                    "reading {} from {} to {} (expected two bounds in rising "
                                    "order, or one finite value)",
                                    quantity.id, reading.lower, reading.upper));
  // Its square must still be a number.
  constexpr double least_sd = 1e-150, greatest_sd = 1e150;
  if (!(reading.sd >= least_sd && reading.sd <= greatest_sd))
    problems.push_back(
        make_problem(Kind::data, "reading {}: sd {} (expected above 0)", quantity.id, reading.sd));
  if (!std::isfinite(reading.shift))
    problems.push_back(make_problem(Kind::data, "reading {}: shift {} (expected a finite number)",
                                    quantity.id, reading.shift));
}

}  // namespace

Problems faults_of(const Network& network, const Evidence& evidence) {
  Problems problems;
  if (evidence.history && *evidence.history >= network.histories.size())
    problems.push_back(make_problem(Kind::data, "history {} (expected below {})", *evidence.history,
                                    network.histories.size()));
  for (const Finding& finding : evidence.findings)
    check_finding(network, finding, problems);
  for (const Reading& reading : evidence.readings)
    check_reading(network, reading, problems);
  return problems;
}

}  // namespace soot::infer
