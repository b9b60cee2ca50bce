// Short words for building networks in tests.
#pragma once

#include "core/infer/evidence.hpp"
#include "core/infer/network.hpp"

#include <string>
#include <utility>
#include <vector>

namespace soot::tests {

inline infer::Network one_history(int cylinders = 1) {
  infer::Network network;
  network.histories = {"ordinary"};
  network.history_prior = {1};
  network.cylinders = cylinders;
  return network;
}

/// One grade, one history. Gives its index.
inline std::size_t add_cause(infer::Network& network, const std::string& id, infer::Scope scope,
                             double prior, std::vector<infer::Effect> effects = {}) {
  network.causes.push_back({id, scope, 1, {{prior}}, std::move(effects)});
  return network.causes.size() - 1;
}

inline std::size_t add_symptom(infer::Network& network, const std::string& id, infer::Scope scope,
                               double leak,
                               const std::vector<std::pair<std::size_t, double>>& strengths) {
  infer::Symptom symptom;
  symptom.id = id;
  symptom.scope = scope;
  symptom.leak = leak;
  for (const auto& [cause, strength] : strengths)
    symptom.links.push_back({cause, {strength}});
  network.symptoms.push_back(std::move(symptom));
  return network.symptoms.size() - 1;
}

inline infer::Finding saw(std::size_t symptom, bool present = true, int cylinder = 0) {
  return {symptom, cylinder, present, std::nullopt};
}

inline infer::Reading exactly(std::size_t quantity, int cylinder, double value, double sd) {
  return {quantity, cylinder, value, value, sd, 0};
}

}  // namespace soot::tests
