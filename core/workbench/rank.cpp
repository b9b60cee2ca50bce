#include "core/workbench/rank.hpp"

#include "core/base/text.hpp"
#include "core/model/words.hpp"
#include "core/workbench/evidence_name.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace soot {
namespace {

constexpr std::size_t explanations_shown = 5;
constexpr double log10_of_e = 0.43429448190325182765;

void sort_lines(std::vector<CauseLine>& lines) {
  std::stable_sort(lines.begin(), lines.end(), [](const CauseLine& a, const CauseLine& b) {
    return a.probability > b.probability;
  });
}

std::vector<GradeChance> grades_of(const Cause& cause, const infer::GradeRow& grade) {
  std::vector<GradeChance> out;
  for (std::size_t g = 0; g < cause.grades.size(); ++g)
    out.push_back({cause.grades[g], cause.grade_names[g], grade[g + 1]});
  return out;
}

class Ranker {
 public:
  Ranker(const Engine& engine, const Inquiry& inquiry, const infer::Posterior& posterior)
      : engine_(engine), inquiry_(inquiry), posterior_(posterior) {}

  void fill(RankAnswer& out) const {
    constexpr double counts_as_exact = 1e-9;
    out.error_bound = posterior_.error_bound;
    out.exact = !posterior_.sampled && posterior_.error_bound <= counts_as_exact;
    out.sampled = posterior_.sampled;
    out.standard_error = posterior_.standard_error;
    out.log10_evidence = posterior_.log_evidence * log10_of_e;
    for (std::size_t h = 0; h < histories.size(); ++h)
      out.history.emplace_back(histories[h], posterior_.history[h]);
    fill_instances(out);
    fill_by_cause(out);
    fill_instruments(out);
    sort_lines(out.causes);
    sort_lines(out.by_cause);
    fill_not_listed(out);
  }

 private:
  void fill_instances(RankAnswer& out) const {
    for (const infer::Instance& instance : posterior_.instances) {
      if (instance.cause >= inquiry_.built.causes.size()) continue;
      const Cause& cause = *inquiry_.built.causes[instance.cause];
      out.causes.push_back({cause.id, cause.name, instance.cylinder, "", instance.present(),
                            grades_of(cause, instance.grade), instance.present()});
    }
  }

  void fill_by_cause(RankAnswer& out) const {
    for (std::size_t c = 0; c < inquiry_.built.causes.size(); ++c) {
      const Cause& cause = *inquiry_.built.causes[c];
      const infer::Instance* likeliest = nullptr;
      double of_next = 0;
      for (const infer::Instance& instance : posterior_.instances) {
        if (instance.cause != c) continue;
        const bool is_likelier = likeliest == nullptr || instance.present() > likeliest->present();
        const infer::Instance* less = is_likelier ? likeliest : &instance;
        if (less != nullptr) of_next = std::max(of_next, less->present());
        if (is_likelier) likeliest = &instance;
      }
      out.by_cause.push_back({cause.id, cause.name, likeliest->cylinder, "", posterior_.any[c],
                              grades_of(cause, likeliest->grade), likeliest->present(), of_next});
    }
  }

  void fill_instruments(RankAnswer& out) const {
    const Cause* wrong = find_id(engine_.knowledge.causes, instrument_cause);
    if (wrong == nullptr) return;
    CauseLine any{wrong->id, wrong->name, 0, "", 0, {}, 0};
    double most = 0;
    for (std::size_t f = 0; f < posterior_.instrument_wrong.size(); ++f) {
      const std::size_t quantity = inquiry_.built.network.instrument_faults[f].quantity;
      const double probability = posterior_.instrument_wrong[f];
      if (!(probability > 0)) continue;
      out.causes.push_back({wrong->id,
                            wrong->name,
                            0,
                            inquiry_.built.quantities[quantity]->id,
                            probability,
                            {},
                            probability});
      any.probability += probability;  // at most one is wrong at a time
      if (probability > most) {
        most = probability;
        any.quantity = out.causes.back().quantity;
      }
    }
    if (any.probability > 0) out.by_cause.push_back(std::move(any));
  }

  void fill_not_listed(RankAnswer& out) const {
    for (std::size_t f = 0; f < posterior_.not_listed.size(); ++f) {
      if (!posterior_.not_listed[f]) continue;
      const EvidenceName name = name_finding(inquiry_, f);
      out.not_listed.push_back({name.id, name.name, name.cylinder, *posterior_.not_listed[f]});
    }
  }

  const Engine& engine_;
  const Inquiry& inquiry_;
  const infer::Posterior& posterior_;
};

ExplanationLine to_line(const Inquiry& inquiry, const infer::Explanation& explanation) {
  ExplanationLine line;
  line.probability = explanation.probability;
  for (const infer::Graded& graded : explanation.present) {
    if (graded.cause >= inquiry.built.causes.size()) continue;
    const Cause& cause = *inquiry.built.causes[graded.cause];
    line.causes.push_back({cause.id, cause.name, cause.grades[graded.grade - 1],
                           cause.grade_names[graded.grade - 1], graded.cylinder});
  }
  return line;
}

StabilityLine to_line(const Inquiry& inquiry, const infer::Stability& stability) {
  StabilityLine line{
      stability.factor, stability.draws, stability.stays_first, stability.stays_in_three, {}};
  for (const infer::Hinge& hinge : stability.hinges)
    if (hinge.cause < inquiry.built.causes.size())
      line.hinges.push_back({inquiry.built.causes[hinge.cause]->id,
                             hinge.symptom ? inquiry.built.symptoms[*hinge.symptom]->id : ""});
  return line;
}

}  // namespace

Result<RankAnswer> rank(const Engine& engine, const Inquiry& inquiry, Fit fit) {
  const infer::Network& net = inquiry.built.network;
  const infer::Evidence& evidence = inquiry.evidence.evidence;
  RankAnswer out;
  out.family = engine.family.id;
  out.family_name = engine.family.name;
  out.known_history = inquiry.job.history;
  out.remarks = inquiry.evidence.remarks;

  infer::ExplanationQuery query;
  query.count = explanations_shown;
  const auto ranking = infer::ranking(net, evidence, query, infer::StabilityQuery{}, asked_limits);
  if (!ranking) return pass_on(ranking);
  if (ranking->posterior.impossible) {
    out.impossible = true;
    return out;
  }
  Ranker{engine, inquiry, ranking->posterior}.fill(out);
  for (const infer::Explanation& explanation : ranking->explanations)
    out.explanations.push_back(to_line(inquiry, explanation));
  if (ranking->stability) out.stability = to_line(inquiry, *ranking->stability);

  if (fit == Fit::skip) return out;
  const auto worst = infer::worst_fit(net, evidence, asked_limits);
  if (!worst) return pass_on(worst);
  if (*worst)
    out.worst_fit = WorstFitLine{(*worst)->is_reading ? name_reading(inquiry, (*worst)->index)
                                                      : name_finding(inquiry, (*worst)->index),
                                 (*worst)->probability};
  return out;
}

}  // namespace soot
