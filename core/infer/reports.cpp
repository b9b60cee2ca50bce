#include "core/infer/reports.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace soot::infer {

namespace {

struct Heard {
  std::size_t symptom = 0;
  int cylinder = 0;
  double k0 = 1;  ///< weight if truly absent
  double k1 = 1;  ///< weight if truly present
  std::vector<std::size_t> findings;
};

void hear(Heard& heard, const Finding& finding) {
  const Unsure unsure = finding.unsure.value_or(Unsure{});
  heard.k0 *= finding.present ? unsure.imagined : 1 - unsure.imagined;
  heard.k1 *= finding.present ? 1 - unsure.missed : unsure.missed;
}

std::vector<Heard> gather(const Evidence& evidence) {
  std::vector<Heard> all;
  for (std::size_t index = 0; index < evidence.findings.size(); ++index) {
    const Finding& finding = evidence.findings[index];
    auto same = std::find_if(all.begin(), all.end(), [&](const Heard& heard) {
      return heard.symptom == finding.symptom && heard.cylinder == finding.cylinder;
    });
    if (same == all.end())
      same = all.insert(all.end(), Heard{finding.symptom, finding.cylinder, 1, 1, {}});
    same->findings.push_back(index);
  }
  // One order whatever order the evidence came in: the answer is the same to the last bit.
  std::sort(all.begin(), all.end(), [](const Heard& a, const Heard& b) {
    return std::pair(a.symptom, a.cylinder) < std::pair(b.symptom, b.cylinder);
  });
  const auto rank = [&](std::size_t index) {
    const Finding& finding = evidence.findings[index];
    const Unsure unsure = finding.unsure.value_or(Unsure{});
    return std::tuple(finding.present, unsure.missed, unsure.imagined);
  };
  for (Heard& heard : all) {
    std::sort(heard.findings.begin(), heard.findings.end(),
              [&](std::size_t a, std::size_t b) { return rank(a) < rank(b); });
    for (const std::size_t index : heard.findings)
      hear(heard, evidence.findings[index]);
  }
  return all;
}

/// strength[g] as noticed; empty if the link never fires it.
GradeRow noticed(const Symptom& symptom, const Link& link) {
  GradeRow strength;
  strength.reserve(link.strength.size() + 1);
  strength.push_back(0);
  for (const double one : link.strength)
    strength.push_back(one * (1 - symptom.missed));
  if (std::all_of(strength.begin(), strength.end(), [](double one) { return one == 0; })) return {};
  return strength;
}

}  // namespace

Reports sort_reports(const Network& network, const Instances& instances, const Evidence& evidence) {
  Reports reports;
  reports.touches.resize(instances.size());
  reports.bit_of.resize(evidence.findings.size());
  reports.absorbed.reserve(instances.size());
  for (std::size_t i = 0; i < instances.size(); ++i)
    reports.absorbed.emplace_back(network.causes[instances[i].cause].grades + 1, 1.0);
  for (const Heard& heard : gather(evidence)) {
    const Symptom& symptom = network.symptoms[heard.symptom];
    const double quiet = (1 - symptom.leak) * (1 - symptom.imagined);
    if (heard.k1 == 0) {
      const double constant = heard.k0 * quiet;
      if (constant == 0) reports.impossible = true;
      if (constant > 0) reports.log_constant += std::log(constant);
    } else {
      for (const std::size_t index : heard.findings)
        reports.bit_of[index] = reports.bits.size();
      const double leak = symptom.leak + symptom.imagined * (1 - symptom.leak);
      reports.bits.push_back({heard.symptom, heard.cylinder, heard.k1,
                              heard.k1 * leak + heard.k0 * quiet, heard.k1 * symptom.leak});
    }
    for (const Link& link : symptom.links) {
      const GradeRow strength = noticed(symptom, link);
      const std::size_t first = instances.first_of(link.cause);
      for (std::size_t i = first; i < first + instances.count_of(link.cause); ++i) {
        if (strength.empty() || !hears(heard.cylinder, instances[i])) continue;
        if (heard.k1 == 0) {
          for (std::size_t g = 0; g < strength.size(); ++g)
            reports.absorbed[i][g] *= 1 - strength[g];
        } else {
          reports.touches[i].push_back({reports.bits.size() - 1, strength});
        }
      }
    }
  }
  return reports;
}

Priors absorb(const Network& network, const Instances& instances, const Reports& reports,
              std::size_t history) {
  Priors priors;
  priors.log_constant = reports.log_constant;
  priors.grade.reserve(instances.size());
  for (std::size_t i = 0; i < instances.size(); ++i) {
    const InstanceKey& key = instances[i];
    const std::vector<double>* above = &network.causes[key.cause].prior[history];
    for (const InstancePrior& own : network.instance_priors)
      if (own.cause == key.cause && own.cylinder == key.cylinder) above = &own.grade;
    GradeRow& grade = priors.grade.emplace_back(above->size() + 1, 0.0);
    grade[0] = std::max(0.0, 1 - std::accumulate(above->begin(), above->end(), 0.0));
    std::copy(above->begin(), above->end(), grade.begin() + 1);
    double sum = 0;
    for (std::size_t g = 0; g < grade.size(); ++g)
      sum += grade[g] *= reports.absorbed[i][g];
    if (!(sum > 0)) {
      priors.possible = false;
      return priors;
    }
    const bool touched = std::any_of(reports.absorbed[i].begin(), reports.absorbed[i].end(),
                                     [](double factor) { return factor != 1; });
    if (touched) {
      priors.log_constant += std::log(sum);
      for (double& one : grade)
        one /= sum;
    }
  }
  return priors;
}

}  // namespace soot::infer
