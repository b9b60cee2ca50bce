#include "core/report/json.hpp"

#include <nlohmann/json.hpp>

#include <cmath>

namespace soot {
namespace {

using Json = nlohmann::ordered_json;

Json cylinder_or_null(int cylinder) {
  return cylinder == 0 ? Json(nullptr) : Json(cylinder);
}

// JSON has no infinity: evidence that settles a cause has a weight of null.
Json finite_or_null(double value) {
  return std::isfinite(value) ? Json(value) : Json(nullptr);
}

Json evidence_json(const EvidenceName& evidence) {
  return Json{{"kind", evidence.is_reading ? "reading" : "symptom"},
              {"id", evidence.id},
              {"cylinder", cylinder_or_null(evidence.cylinder)},
              {"said", evidence.said}};
}

Json cause_json(const CauseLine& line) {
  Json out{{"id", line.id},
           {"cylinder", cylinder_or_null(line.cylinder)},
           {"probability", line.probability}};
  if (!line.quantity.empty()) out["quantity"] = line.quantity;
  Json grades = Json::object();
  for (const GradeChance& grade : line.grades)
    grades[grade.id] = grade.probability;
  out["grades"] = grades;
  return out;
}

Json by_cause_json(const CauseLine& line) {
  Json out{{"id", line.id},
           {"probability", line.probability},
           {"cylinder", cylinder_or_null(line.cylinder)}};
  if (!line.quantity.empty()) out["quantity"] = line.quantity;
  return out;
}

Json explanation_json(const ExplanationLine& line) {
  Json causes = Json::array();
  for (const ExplanationLine::Part& part : line.causes)
    causes.push_back(Json{
        {"id", part.id}, {"cylinder", cylinder_or_null(part.cylinder)}, {"grade", part.grade}});
  return Json{{"probability", line.probability}, {"causes", causes}};
}

Json amount_json(const calc::Amount& amount) {
  Json out{{"name", amount.name},
           {"cylinder", cylinder_or_null(amount.cylinder)},
           {"value", (amount.value - amount.unit.offset) / amount.unit.factor},
           {"unit", amount.unit.name}};
  if (amount.expanded) out["expanded-uncertainty"] = *amount.expanded / amount.unit.factor;
  if (!amount.from.empty()) out["from"] = amount.from;
  return out;
}

Json rank_json(const RankAnswer& answer) {
  Json out{{"format", "sootsayer.rank/1"},
           {"family", answer.family},
           {"exact", answer.exact},
           {"error-bound", answer.error_bound},
           {"sampled", answer.sampled.has_value()},
           {"impossible", answer.impossible}};
  if (answer.sampled) {
    out["sampled-because"] = *answer.sampled;
    out["standard-error"] = answer.standard_error;
  }
  Json history = Json::object();
  for (const auto& [name, probability] : answer.history)
    history[name] = probability;
  out["history"] = history;
  for (const char* key : {"causes", "by-cause", "not-listed", "explanations"})
    out[key] = Json::array();
  for (const CauseLine& line : answer.causes)
    out["causes"].push_back(cause_json(line));
  for (const CauseLine& line : answer.by_cause)
    out["by-cause"].push_back(by_cause_json(line));
  for (const NotListedLine& line : answer.not_listed)
    out["not-listed"].push_back(Json{{"symptom", line.symptom},
                                     {"cylinder", cylinder_or_null(line.cylinder)},
                                     {"probability", line.probability}});
  for (const ExplanationLine& line : answer.explanations)
    out["explanations"].push_back(explanation_json(line));
  out["log10-evidence"] = answer.impossible ? Json(nullptr) : finite_or_null(answer.log10_evidence);
  out["worst-fit"] = nullptr;
  if (answer.worst_fit) {
    out["worst-fit"] = evidence_json(answer.worst_fit->evidence);
    out["worst-fit"]["probability"] = answer.worst_fit->probability;
  }
  out["stability"] = nullptr;
  if (answer.stability) {
    Json hinges = Json::array();
    for (const StabilityLine::Hinge& hinge : answer.stability->hinges)
      hinges.push_back(
          Json{{"cause", hinge.cause},
               {"symptom", hinge.symptom.empty() ? Json(nullptr) : Json(hinge.symptom)}});
    out["stability"] = Json{{"factor", answer.stability->factor},
                            {"draws", answer.stability->draws},
                            {"stays-first", answer.stability->stays_first},
                            {"stays-in-three", answer.stability->stays_in_three},
                            {"hangs-on", hinges}};
  }
  out["remarks"] = answer.remarks;
  return out;
}

}  // namespace

std::string to_json(const RankAnswer& answer) {
  return rank_json(answer).dump(2) + "\n";
}

std::string to_json(const WeighAnswer& answer) {
  Json out{{"format", "sootsayer.weigh/1"}, {"family", answer.family},
           {"cause", answer.cause},         {"cylinder", cylinder_or_null(answer.cylinder)},
           {"prior", answer.prior},         {"probability", answer.probability}};
  out["evidence"] = Json::array();
  for (const WeightLine& line : answer.lines) {
    Json entry = evidence_json(line.evidence);
    entry["log-odds"] = finite_or_null(line.log_odds);
    out["evidence"].push_back(entry);
  }
  out["remarks"] = answer.remarks;
  return out.dump(2) + "\n";
}

std::string to_json(const NextAnswer& answer) {
  Json out{{"format", "sootsayer.next/1"},
           {"family", answer.family},
           {"verdict", name_of(answer.verdict)},
           {"not-listed", answer.not_listed}};
  out["proposals"] = Json::array();
  for (const ProposalLine& line : answer.proposals) {
    Json parts = Json::array();
    for (const ProposalLine::Suspect& suspect : line.parts)
      parts.push_back(Json::array({suspect.cause, cylinder_or_null(suspect.cylinder)}));
    out["proposals"].push_back(Json{{"kind", name_of(line.kind)},
                                    {"id", line.id},
                                    {"cylinders", line.cylinders},
                                    {"minutes", line.minutes},
                                    {"opening-minutes", line.opening_minutes},
                                    {"cost", line.cost},
                                    {"saving", line.saving},
                                    {"saving-over-not-looking", line.saving_over_not_looking},
                                    {"mends", line.mends},
                                    {"parts", parts}});
  }
  out["remarks"] = answer.remarks;
  return out.dump(2) + "\n";
}

std::string to_json(const calc::Sum& sum) {
  Json out{{"format", "sootsayer.sum/1"}, {"sum", sum.id}, {"title", sum.title}};
  out["rule"] = sum.formula;
  out["inputs"] = Json::array();
  for (const calc::Amount& input : sum.inputs)
    out["inputs"].push_back(amount_json(input));
  out["lines"] = sum.lines;
  out["results"] = Json::array();
  for (const calc::Amount& result : sum.results)
    out["results"].push_back(amount_json(result));
  out["answer"] = sum.answer;
  out["cautions"] = sum.cautions;
  out["taken-for-granted"] = sum.assumptions;
  out["source"] = sum.source;
  return out.dump(2) + "\n";
}

std::string to_json(const std::vector<JobLine>& jobs) {
  Json out{{"format", "sootsayer.jobs/1"}};
  out["jobs"] = Json::array();
  for (const JobLine& job : jobs)
    out["jobs"].push_back(Json{{"number", job.number},
                               {"family", job.family},
                               {"engine", job.engine},
                               {"opened", job.opened_at},
                               {"last", job.last_at},
                               {"open", job.is_open},
                               {"current", job.is_current},
                               {"lines", job.lines},
                               {"words", job.words}});
  return out.dump(2) + "\n";
}

std::string to_json(const std::vector<CaseTitle>& titles) {
  Json out{{"format", "sootsayer.case-list/1"}};
  out["cases"] = Json::array();
  for (const CaseTitle& title : titles)
    out["cases"].push_back(
        Json{{"name", title.name}, {"family", title.family}, {"title", title.title}});
  return out.dump(2) + "\n";
}

std::string to_json(const CaseReport& report) {
  Json out{{"format", "sootsayer.case/1"},
           {"name", report.name},
           {"title", report.title},
           {"story", report.story}};
  out["truth"] = Json::array();
  for (const TruthLine& truth : report.truth)
    out["truth"].push_back(Json{{"id", truth.cause},
                                {"cylinder", cylinder_or_null(truth.cylinder)},
                                {"grade", truth.grade},
                                {"rank", truth.rank == 0 ? Json(nullptr) : Json(truth.rank)},
                                {"within", truth.within == 0 ? Json(nullptr) : Json(truth.within)},
                                {"probability", truth.probability}});
  out["rank"] = rank_json(report.rank);
  return out.dump(2) + "\n";
}

}  // namespace soot
