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

// What is weighed as one: a finding, or all readings of one quantity on one cylinder. Left out one
// by one, repeats would each look worthless, since the other says the same.
struct NamedPiece {
  EvidenceName name;
  infer::Piece piece;
};

std::vector<NamedPiece> named_pieces(const Inquiry& inquiry) {
  std::map<std::tuple<bool, std::string, int>, NamedPiece> pieces;
  const auto put = [&](const EvidenceName& name) -> infer::Piece& {
    NamedPiece& piece = pieces[{name.is_reading, name.id, name.cylinder}];
    if (piece.name.id.empty()) {
      piece.name = name;
    } else {
      piece.name.said += ", " + name.said;
    }
    return piece.piece;
  };
  for (std::size_t f = 0; f < inquiry.evidence.findings.size(); ++f)
    put(name_finding(inquiry, f)).findings.push_back(f);
  for (std::size_t r = 0; r < inquiry.evidence.readings.size(); ++r)
    put(name_reading(inquiry, r)).readings.push_back(r);
  std::vector<NamedPiece> out;
  for (auto& [key, piece] : pieces)
    out.push_back(std::move(piece));
  return out;
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

  const std::vector<NamedPiece> named = named_pieces(inquiry);
  std::vector<infer::Piece> pieces;
  for (const NamedPiece& one : named)
    pieces.push_back(one.piece);
  const auto weights = infer::weights(inquiry.built.network, inquiry.evidence.evidence,
                                      found->second, cylinder, pieces, asked_limits);
  if (!weights) return pass_on(weights);

  WeighAnswer out;
  out.family = engine.family.id;
  out.cause = id;
  out.name = cause.name;
  out.about = cause.about;
  out.not_about = cause.not_about;
  out.cylinder = cylinder;
  out.prior = logistic(weights->prior_log_odds);
  out.probability = logistic(weights->log_odds);
  out.remarks = inquiry.evidence.remarks;
  for (std::size_t i = 0; i < named.size(); ++i)
    out.lines.push_back({named[i].name, weights->pieces[i]});
  std::stable_sort(out.lines.begin(), out.lines.end(),
                   [](const WeightLine& a, const WeightLine& b) {
                     return std::abs(a.log_odds) > std::abs(b.log_odds);
                   });
  return out;
}

}  // namespace soot
