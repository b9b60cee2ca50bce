#include "core/workbench/hypotheses.hpp"

#include <algorithm>

namespace soot {
namespace {

constexpr std::size_t most_explanations = 128;
constexpr std::size_t most_sets = 40;
constexpr std::size_t most_at_once = 8;
constexpr double least_weight = 1e-4;

// Chance that a cause at a grade does at least one of the complaints. Where none is told it is the
// cause's being there that is to be mended.
double complaint_strength(const Inquiry& inquiry, const std::vector<Observation>& complaints,
                          const infer::Graded& graded) {
  if (complaints.empty()) return 1;
  double silent = 1;
  for (const Observation& complaint : complaints) {
    const bool elsewhere =
        complaint.cylinder != 0 && graded.cylinder != 0 && complaint.cylinder != graded.cylinder;
    if (elsewhere) continue;
    const std::size_t symptom = inquiry.built.symptom_index.find(complaint.symptom)->second;
    for (const infer::Link& link : inquiry.built.network.symptoms[symptom].links)
      if (link.cause == graded.cause) silent *= 1 - link.strength[graded.grade - 1];
  }
  return 1 - silent;
}

std::vector<bool> able_causes(const Inquiry& inquiry, const std::vector<Observation>& complaints) {
  std::vector<bool> able(inquiry.built.network.causes.size(), false);
  for (const Observation& complaint : complaints) {
    const std::size_t symptom = inquiry.built.symptom_index.find(complaint.symptom)->second;
    for (const infer::Link& link : inquiry.built.network.symptoms[symptom].links)
      if (std::any_of(link.strength.begin(), link.strength.end(), [](double s) { return s > 0; }))
        able[link.cause] = true;
  }
  return able;
}

// Those that move something that was read.
std::vector<bool> shown_causes(const Inquiry& inquiry) {
  const infer::Network& network = inquiry.built.network;
  std::vector<bool> is_heard(network.terms.size(), false);
  for (const infer::Reading& reading : inquiry.evidence.evidence.readings)
    for (const infer::Response& response : network.quantities[reading.quantity].responses)
      is_heard[response.term] = true;
  std::vector<bool> shown(network.causes.size(), false);
  for (std::size_t cause = 0; cause < inquiry.built.causes.size(); ++cause)
    for (const infer::Effect& effect : network.causes[cause].effects)
      if (is_heard[effect.term]) shown[cause] = true;
  return shown;
}

// Whether one of them is in the evidence as present: not so once a correction may have cured it.
bool complaint_stands(const Inquiry& inquiry, const std::vector<Observation>& complaints) {
  const auto& findings = inquiry.evidence.evidence.findings;
  return std::any_of(findings.begin(), findings.end(), [&](const infer::Finding& finding) {
    return finding.present &&
           std::any_of(complaints.begin(), complaints.end(), [&](const Observation& complaint) {
             return inquiry.built.symptoms[finding.symptom]->id == complaint.symptom &&
                    finding.cylinder == complaint.cylinder;
           });
  });
}

// The complaint least explained by what is listed.
double not_listed_of(const Inquiry& inquiry, const std::vector<Observation>& complaints,
                     const infer::Posterior& posterior) {
  double most = 0;
  for (std::size_t f = 0; f < posterior.not_listed.size(); ++f) {
    const infer::Finding& finding = inquiry.evidence.evidence.findings[f];
    for (const Observation& complaint : complaints)
      if (inquiry.built.symptoms[finding.symptom]->id == complaint.symptom &&
          finding.cylinder == complaint.cylinder && posterior.not_listed[f])
        most = std::max(most, *posterior.not_listed[f]);
  }
  return most;
}

class Splitter {
 public:
  Splitter(const Inquiry& inquiry, const std::vector<Observation>& complaints)
      : inquiry_(inquiry), complaints_(complaints) {}

  // `stands`: the complaint is part of the evidence, so something is active.
  void add(const infer::Explanation& explanation, bool stands) {
    const std::size_t n = explanation.present.size();
    if (n > most_at_once || (n == 0 && stands)) return;
    std::vector<double> strength;
    for (const infer::Graded& graded : explanation.present)
      strength.push_back(complaint_strength(inquiry_, complaints_, graded));
    double some_active = 1;
    for (const double s : strength)
      some_active *= 1 - s;
    some_active = 1 - some_active;
    if (stands && !(some_active > 0)) return;
    for (std::size_t mask = stands ? 1 : 0; mask < (std::size_t{1} << n); ++mask) {
      double chance = explanation.probability / (stands ? some_active : 1);
      std::vector<std::size_t> active;
      for (std::size_t i = 0; i < n; ++i) {
        const bool on = (mask >> i & 1U) != 0;
        chance *= on ? strength[i] : 1 - strength[i];
        if (on) active.push_back(suspect_index(explanation.present[i]));
      }
      if (chance > least_weight) put(std::move(active), chance, explanation.present);
    }
  }

  // What was left out (rarer combinations) is taken to be like what was kept; what no listed cause
  // does is not.
  Hypotheses take(double not_listed) {
    std::stable_sort(out_.sets.begin(), out_.sets.end(),
                     [](const Active& a, const Active& b) { return a.weight > b.weight; });
    if (out_.sets.size() > most_sets) out_.sets.resize(most_sets);
    double total = 0;
    for (const Active& set : out_.sets)
      total += set.weight;
    for (Active& set : out_.sets)
      set.weight *= (1 - not_listed) / total;
    out_.not_listed = not_listed;
    return std::move(out_);
  }

 private:
  std::size_t suspect_index(const infer::Graded& graded) {
    const Suspect suspect{graded.cause, graded.cylinder};
    const auto found = std::find(out_.suspects.begin(), out_.suspects.end(), suspect);
    if (found != out_.suspects.end())
      return static_cast<std::size_t>(found - out_.suspects.begin());
    out_.suspects.push_back(suspect);
    return out_.suspects.size() - 1;
  }

  void put(std::vector<std::size_t> active, double weight,
           const std::vector<infer::Graded>& present) {
    std::sort(active.begin(), active.end());
    for (Active& set : out_.sets) {
      if (set.suspects != active) continue;
      set.weight += weight;
      set.variants.push_back({weight, present});
      return;
    }
    out_.sets.push_back({std::move(active), weight, {{weight, present}}});
  }

  const Inquiry& inquiry_;
  const std::vector<Observation>& complaints_;
  Hypotheses out_;
};

}  // namespace

Result<Hypotheses> hypothesise(const Inquiry& inquiry, const std::vector<Observation>& complaints) {
  infer::ExplanationQuery query;
  query.count = most_explanations;
  query.of_interest = complaints.empty() ? shown_causes(inquiry) : able_causes(inquiry, complaints);
  const auto ranking =
      infer::ranking(inquiry.built.network, inquiry.evidence.evidence, query, {}, asked_limits);
  if (!ranking) return pass_on(ranking);
  Splitter splitter(inquiry, complaints);
  const bool stands = complaint_stands(inquiry, complaints);
  for (const infer::Explanation& explanation : ranking->explanations)
    splitter.add(explanation, stands);
  return splitter.take(stands ? not_listed_of(inquiry, complaints, ranking->posterior) : 0);
}

}  // namespace soot
