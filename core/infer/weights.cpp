#include "core/infer/answer.hpp"
#include "core/infer/instances.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

namespace soot::infer {

namespace {

/// From the two sides' own sums: 1 - p would lose the rare side.
double log_odds(const Network& network, const Posterior& posterior, std::size_t cause,
                int cylinder) {
  const bool over_cylinders = network.causes[cause].scope == Scope::cylinder && cylinder == 0;
  if (over_cylinders) return std::log(posterior.any[cause]) - std::log(posterior.none[cause]);
  const Instance& instance = posterior.instances[Instances(network).index_of(cause, cylinder)];
  return std::log(instance.present()) - std::log(instance.grade[0]);
}

/// Equal infinite odds are no change.
double difference(double with, double without) {
  return with == without ? 0 : with - without;
}

template <class Entry>
std::vector<Entry> without_indices(const std::vector<Entry>& all,
                                   const std::vector<std::size_t>& indices) {
  std::vector<Entry> out;
  for (std::size_t i = 0; i < all.size(); ++i)
    if (std::find(indices.begin(), indices.end(), i) == indices.end()) out.push_back(all[i]);
  return out;
}

Evidence without_piece(const Evidence& evidence, const Piece& piece) {
  return {evidence.history, without_indices(evidence.findings, piece.findings),
          without_indices(evidence.readings, piece.readings)};
}

}  // namespace

std::vector<Piece> pieces_of(const Evidence& evidence) {
  std::vector<Piece> pieces;
  std::map<std::tuple<bool, std::size_t, int>, std::size_t> place;
  const auto put = [&](bool reading, std::size_t what, int cylinder) -> Piece& {
    const auto [known, is_new] = place.try_emplace({reading, what, cylinder}, pieces.size());
    if (is_new) pieces.emplace_back();
    return pieces[known->second];
  };
  for (std::size_t f = 0; f < evidence.findings.size(); ++f)
    put(false, evidence.findings[f].symptom, evidence.findings[f].cylinder).findings.push_back(f);
  for (std::size_t r = 0; r < evidence.readings.size(); ++r)
    put(true, evidence.readings[r].quantity, evidence.readings[r].cylinder).readings.push_back(r);
  return pieces;
}

Result<Weights> weights(const Network& network, const Evidence& evidence, std::size_t cause,
                        int cylinder, const std::vector<Piece>& pieces, const Limits& limits) {
  const auto whole = posterior(network, evidence, limits);
  if (!whole) return pass_on(whole);
  const int cylinders = network.cylinders;
  if (cause >= network.causes.size())
    return fail(Kind::data, "weights of cause {} (expected below {})", cause,
                network.causes.size());
  const bool engine_wide = network.causes[cause].scope == Scope::engine;
  if (cylinder < 0 || cylinder > (engine_wide ? 0 : cylinders))
    return fail(Kind::data, "weights of {} in cylinder {} (expected 0 to {})",
                network.causes[cause].id, cylinder, engine_wide ? 0 : cylinders);
  if (whole->impossible)
    return fail(Kind::data,
                "the evidence contradicts itself: the model gives it probability 0 (expected "
                "evidence that can occur)");
  Limits own = limits;
  own.by_cause = !engine_wide && cylinder == 0;
  const auto odds_of = [&](const Evidence& given) -> Result<double> {
    const auto answer = posterior(network, given, own);
    if (!answer) return pass_on(answer);
    return log_odds(network, *answer, cause, cylinder);
  };
  Weights result;
  const auto all = odds_of(evidence);
  if (!all) return pass_on(all);
  result.log_odds = *all;
  const auto prior = odds_of({evidence.history, {}, {}});
  if (!prior) return pass_on(prior);
  result.prior_log_odds = *prior;
  for (const Piece& piece : pieces) {
    const auto rest = odds_of(without_piece(evidence, piece));
    if (!rest) return pass_on(rest);
    result.pieces.push_back(difference(result.log_odds, *rest));
  }
  return result;
}

}  // namespace soot::infer
