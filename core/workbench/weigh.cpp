#include "core/base/text.hpp"
#include "core/workbench/evidence_name.hpp"
#include "core/workbench/rank.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

namespace soot {
namespace {

double logistic(double log_odds) {
  return 1 / (1 + std::exp(-log_odds));
}

// Log-odds of one cause on one cylinder (0: on any of them) under some evidence.
class Scales {
 public:
  Scales(const Inquiry& inquiry, std::size_t cause, int cylinder)
      : network_(inquiry.built.network), cause_(cause), cylinder_(cylinder) {}

  Result<double> log_odds(const infer::Evidence& evidence) const {
    const Result<infer::Posterior> posterior = infer::posterior(network_, evidence, asked_limits);
    if (!posterior) return pass_on(posterior);
    if (posterior->impossible)
      return fail(Kind::data,
                  "what was entered cannot happen under the knowledge, so nothing can "
                  "be weighed (expected a record without its mistaken line)");
    if (cylinder_ == 0) return std::log(posterior->any[cause_] / posterior->none[cause_]);
    for (const infer::Instance& instance : posterior->instances)
      if (instance.cause == cause_ && instance.cylinder == cylinder_)
        return std::log(instance.present() / instance.grade.front());
    return fail(Kind::use, "no such cylinder");
  }

 private:
  const infer::Network& network_;
  std::size_t cause_;
  int cylinder_;
};

// What is weighed as one: a finding, or all readings of one quantity on one cylinder. Left out one
// by one, repeats would each look worthless, since the other says the same.
struct Piece {
  EvidenceName name;
  std::vector<std::size_t> findings;
  std::vector<std::size_t> readings;
};

std::vector<Piece> pieces_of(const Inquiry& inquiry) {
  std::map<std::tuple<bool, std::string, int>, Piece> pieces;
  const auto put = [&](const EvidenceName& name) -> Piece& {
    Piece& piece = pieces[{name.is_reading, name.id, name.cylinder}];
    if (piece.name.id.empty()) {
      piece.name = name;
    } else {
      piece.name.said += ", " + name.said;
    }
    return piece;
  };
  for (std::size_t f = 0; f < inquiry.evidence.findings.size(); ++f)
    put(name_finding(inquiry, f)).findings.push_back(f);
  for (std::size_t r = 0; r < inquiry.evidence.readings.size(); ++r)
    put(name_reading(inquiry, r)).readings.push_back(r);
  std::vector<Piece> out;
  for (auto& [key, piece] : pieces)
    out.push_back(std::move(piece));
  return out;
}

template <class Entry>
std::vector<Entry> without_indices(const std::vector<Entry>& all,
                                   const std::vector<std::size_t>& indices) {
  std::vector<Entry> out;
  for (std::size_t i = 0; i < all.size(); ++i)
    if (std::find(indices.begin(), indices.end(), i) == indices.end()) out.push_back(all[i]);
  return out;
}

infer::Evidence without_piece(infer::Evidence evidence, const Piece& piece) {
  evidence.findings = without_indices(evidence.findings, piece.findings);
  evidence.readings = without_indices(evidence.readings, piece.readings);
  return evidence;
}

}  // namespace

Result<WeighAnswer> weigh(const Engine& engine, const Inquiry& inquiry, const std::string& id,
                          int cylinder) {
  const auto found = inquiry.built.cause_index.find(id);
  if (found == inquiry.built.cause_index.end())
    return fail(Kind::use, "'{}' is no cause of {}{}", id, engine.family.id,
                did_you_mean(id, ids_of(engine.knowledge.causes)));
  const Cause& cause = *inquiry.built.causes[found->second];
  if (cause.scope == Scope::engine && cylinder != 0)
    return fail(Kind::use, "{} belongs to the whole engine (expected no cylinder)", id);
  if (cylinder < 0 || cylinder > engine.family.cylinders)
    return fail(Kind::use, "cylinder {} of {}: {} has cylinders 1 to {}", cylinder, id,
                engine.family.id, engine.family.cylinders);

  const Scales scales(inquiry, found->second, cylinder);
  const infer::Evidence& evidence = inquiry.evidence.evidence;
  infer::Evidence nothing;
  nothing.history = evidence.history;
  const Result<double> with_all = scales.log_odds(evidence);
  if (!with_all) return pass_on(with_all);
  const Result<double> before = scales.log_odds(nothing);
  if (!before) return pass_on(before);

  WeighAnswer out;
  out.family = engine.family.id;
  out.cause = id;
  out.name = cause.name;
  out.about = cause.about;
  out.not_about = cause.not_about;
  out.cylinder = cylinder;
  out.prior = logistic(*before);
  out.probability = logistic(*with_all);
  out.remarks = inquiry.evidence.remarks;
  for (const Piece& piece : pieces_of(inquiry)) {
    const Result<double> without = scales.log_odds(without_piece(evidence, piece));
    if (!without) return pass_on(without);
    out.lines.push_back({piece.name, *with_all - *without});
  }
  std::stable_sort(out.lines.begin(), out.lines.end(),
                   [](const WeightLine& a, const WeightLine& b) {
                     return std::abs(a.log_odds) > std::abs(b.log_odds);
                   });
  return out;
}

}  // namespace soot
