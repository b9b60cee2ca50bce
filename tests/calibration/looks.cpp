#include "tests/calibration/looks.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace soot::judges {
namespace {

constexpr std::size_t signs_at_random = 4;
constexpr std::size_t signs_suggested = 6;
constexpr std::size_t most_quantities = 2;

double instrument_of(const Quantity& quantity, double value) {
  const double sd = std::hypot(quantity.instrument, quantity.instrument_share / 100 * value);
  return sd > 0 ? sd : 1e-3;
}

double commonness_of(const infer::Network& net, const infer::Cause& cause) {
  double sum = 0;
  for (std::size_t h = 0; h < net.history_prior.size(); ++h)
    sum +=
        net.history_prior[h] * std::accumulate(cause.prior[h].begin(), cause.prior[h].end(), 0.0);
  return sum;
}

double strongest(const infer::Link& link) {
  return *std::max_element(link.strength.begin(), link.strength.end());
}

std::vector<const infer::Finding*> present_of(const infer::Evidence& evidence) {
  std::vector<const infer::Finding*> out;
  for (const infer::Finding& finding : evidence.findings)
    if (finding.present) out.push_back(&finding);
  return out;
}

}  // namespace

Looks::Looks(const BuiltNetwork& built, Dice& dice)
    : built_(built), net_(built.network), dice_(dice), signs_of_(net_.causes.size()) {
  for (std::size_t q = 0; q < built.quantities.size(); ++q)
    if (!built.quantities[q]->is_coarse()) readable_.push_back(q);
  for (const infer::Cause& cause : net_.causes)
    commonness_.push_back(commonness_of(net_, cause));
  for (std::size_t s = 0; s < net_.symptoms.size(); ++s)
    for (const infer::Link& link : net_.symptoms[s].links) {
      signs_of_[link.cause].symptoms.push_back(s);
      signs_of_[link.cause].strengths.push_back(strongest(link));
    }
}

infer::Evidence Looks::at(DrawnEngine& engine) {
  infer::Evidence evidence;
  if (dice_.chance(0.5)) evidence.history = engine.history();
  std::set<Sign> seen;
  const auto look = [&](Sign sign) {
    if (seen.insert(sign).second)
      evidence.findings.push_back(
          {sign.first, sign.second, engine.report(sign.first, sign.second), std::nullopt});
  };
  while (seen.size() < signs_at_random)
    look(any_sign());
  for (std::size_t i = 0; i < signs_suggested; ++i) {
    const auto present = present_of(evidence);
    if (present.empty()) break;
    look(suggested_by(*present[dice_.below(present.size())]));
  }
  std::set<std::size_t> read;
  for (std::size_t count = dice_.below(most_quantities + 1); count > 0; --count) {
    const std::size_t q = readable_[dice_.below(readable_.size())];
    if (read.insert(q).second) gauge(engine, q, evidence);
  }
  return evidence;
}

Looks::Sign Looks::any_sign() {
  const std::size_t s = dice_.below(net_.symptoms.size());
  return {s, place(net_.symptoms[s].scope)};
}

// Another sign of a cause that would make this one: common causes and strong signs the more often.
Looks::Sign Looks::suggested_by(const infer::Finding& present) {
  const std::vector<infer::Link>& links = net_.symptoms[present.symptom].links;
  if (links.empty()) return any_sign();
  std::vector<double> weights;
  for (const infer::Link& link : links)
    weights.push_back(commonness_[link.cause] * strongest(link));
  const SignsOf& signs = signs_of_[links[pick(weights)].cause];
  const std::size_t s = signs.symptoms[pick(signs.strengths)];
  const bool same_place = net_.symptoms[s].scope == infer::Scope::cylinder && present.cylinder != 0;
  return {s, same_place ? present.cylinder : place(net_.symptoms[s].scope)};
}

std::size_t Looks::pick(std::vector<double> weights) {
  const double sum = std::accumulate(weights.begin(), weights.end(), 0.0);
  for (double& weight : weights)
    weight /= sum;
  return dice_.pick(weights);
}

int Looks::place(infer::Scope scope) {
  return scope == infer::Scope::engine
             ? 0
             : 1 + static_cast<int>(dice_.below(static_cast<std::size_t>(net_.cylinders)));
}

// One cylinder, or all of them.
void Looks::gauge(DrawnEngine& engine, std::size_t q, infer::Evidence& evidence) {
  const bool of_engine = net_.quantities[q].scope == infer::Scope::engine;
  const bool all = !of_engine && dice_.chance(0.5);
  const int from = all ? 1 : place(net_.quantities[q].scope);
  const int to = all ? net_.cylinders : from;
  for (int cylinder = from; cylinder <= to; ++cylinder) {
    const double sd = instrument_of(*built_.quantities[q], net_.quantities[q].nominal);
    const double value = engine.read(q, cylinder, sd);
    evidence.readings.push_back({q, cylinder, value, value, sd, 0});
  }
}

}  // namespace soot::judges
