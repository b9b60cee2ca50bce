#include "tests/calibration/sampler.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace soot::judges {

double Dice::uniform() {
  constexpr double steps = 9007199254740992.0;  // 2^53
  return static_cast<double>(engine_() >> 11) / steps;
}

// Box and Muller, Annals of Mathematical Statistics 29 (1958).
double Dice::normal() {
  const double radius = std::sqrt(-2 * std::log(1 - uniform()));
  return radius * std::cos(2 * std::numbers::pi * uniform());
}

std::size_t Dice::pick(const std::vector<double>& weights) {
  double left = uniform();
  for (std::size_t i = 0; i + 1 < weights.size(); ++i) {
    if (left < weights[i]) return i;
    left -= weights[i];
  }
  return weights.size() - 1;
}

std::size_t Dice::below(std::size_t count) {
  return std::min(count - 1, static_cast<std::size_t>(uniform() * static_cast<double>(count)));
}

DrawnEngine::DrawnEngine(const infer::Network& network, Dice& dice) : net_(network), dice_(dice) {
  history_ = dice_.pick(net_.history_prior);
  for (std::size_t c = 0; c < net_.causes.size(); ++c) {
    if (net_.causes[c].scope == infer::Scope::engine) {
      draw_cause(c, 0);
      continue;
    }
    for (int cylinder = 1; cylinder <= net_.cylinders; ++cylinder)
      draw_cause(c, cylinder);
  }
  // At most one instrument is wrong: its own chance each, none for the rest.
  double left = dice_.uniform();
  for (std::size_t f = 0; f < net_.instrument_faults.size() && !fault_; ++f) {
    if (left < net_.instrument_faults[f].prior) fault_ = f;
    left -= net_.instrument_faults[f].prior;
  }
  if (fault_) {
    const infer::InstrumentFault& fault = net_.instrument_faults[*fault_];
    offset_ = fault.mean + fault.sd * dice_.normal();
  }
}

void DrawnEngine::draw_cause(std::size_t index, int cylinder) {
  const infer::Cause& cause = net_.causes[index];
  const std::vector<double>* chances = &cause.prior[history_];
  for (const infer::InstancePrior& other : net_.instance_priors)
    if (other.cause == index && other.cylinder == cylinder) chances = &other.grade;
  std::vector<double> weights{1};  // sound, then the grades
  for (const double chance : *chances) {
    weights.front() -= chance;
    weights.push_back(chance);
  }
  Present drawn{index, cylinder, dice_.pick(weights), {}, {}};
  if (drawn.grade == 0) return;
  for (const infer::Effect& effect : cause.effects) {
    const std::size_t g = drawn.grade - 1;
    drawn.size.push_back(effect.mean[g] + effect.sd[g] * dice_.normal());
    std::vector<double>& scatter = drawn.scatter.emplace_back();
    for (int k = 0; k < net_.cylinders && !effect.scatter.empty(); ++k)
      scatter.push_back(effect.scatter[g] * dice_.normal());
  }
  present_.push_back(std::move(drawn));
}

bool DrawnEngine::has(std::size_t cause) const {
  return std::any_of(present_.begin(), present_.end(),
                     [&](const Present& one) { return one.cause == cause; });
}

// What is seen or read on the engine hears every cylinder, on a cylinder the engine and itself.
bool DrawnEngine::hears(int place, int cylinder) const {
  return place == 0 || cylinder == 0 || place == cylinder;
}

bool DrawnEngine::report(std::size_t index, int cylinder) {
  const infer::Symptom& symptom = net_.symptoms[index];
  bool seen = dice_.chance(symptom.leak);
  if (dice_.chance(symptom.imagined)) seen = true;
  for (const Present& one : present_) {
    if (!hears(cylinder, one.cylinder)) continue;
    for (const infer::Link& link : symptom.links)
      if (link.cause == one.cause && dice_.chance(link.strength[one.grade - 1]) &&
          !dice_.chance(symptom.missed))
        seen = true;
  }
  return seen;
}

double DrawnEngine::common(std::size_t term) const {
  double sum = 0;
  for (const Present& one : present_)
    for (std::size_t e = 0; e < one.size.size(); ++e)
      if (one.cylinder == 0 && net_.causes[one.cause].effects[e].term == term) sum += one.size[e];
  return sum;
}

double DrawnEngine::own(std::size_t term, int place) const {
  double sum = 0;
  for (const Present& one : present_)
    for (std::size_t e = 0; e < one.size.size(); ++e) {
      if (net_.causes[one.cause].effects[e].term != term) continue;
      if (one.cylinder != 0 && hears(place, one.cylinder)) sum += one.size[e];
      if (one.cylinder == 0 && place != 0 && !one.scatter[e].empty())
        sum += one.scatter[e][static_cast<std::size_t>(place) - 1];
    }
  return sum;
}

double DrawnEngine::read(std::size_t index, int cylinder, double sd) {
  const infer::Quantity& quantity = net_.quantities[index];
  const auto [spread, is_new] = spread_.try_emplace({index, cylinder}, 0.0);
  if (is_new) spread->second = quantity.spread * dice_.normal();
  double value = quantity.nominal + spread->second + sd * dice_.normal();
  for (const infer::Response& response : quantity.responses) {
    const double shared = common(response.term);
    value +=
        response.shift.at(shared) + response.shift.slope_at(shared) * own(response.term, cylinder);
  }
  if (fault_ && net_.instrument_faults[*fault_].quantity == index) value += offset_;
  return value;
}

}  // namespace soot::judges
