// The knowledge and a family's figures as a network of core/infer, and the way back from its
// indices.
#pragma once

#include "core/infer/network.hpp"
#include "core/workbench/engine.hpp"

#include <map>
#include <string>
#include <vector>

namespace soot {

/// Cause, symptom and quantity i of the network are those at i of the engine's lists in `causes`,
/// `symptoms`, `quantities` (pointers into the engine, which must outlive this). Network causes
/// past the end of `causes` are no faults: each stands for a figure that the family does not give,
/// known only to lie somewhere, so that cylinders can still be compared.
struct BuiltNetwork {
  infer::Network network;
  std::vector<const Cause*> causes;
  std::vector<const Symptom*> symptoms;
  std::vector<const Quantity*> quantities;
  std::map<std::string, std::size_t, std::less<>> cause_index, symptom_index, quantity_index;
};

/// `known_history`: index into `histories`, for the prior of a wrong instrument.
Result<BuiltNetwork> build_network(const Engine& engine, std::optional<std::size_t> known_history);

/// The nominal value of a quantity on this engine: the family's figure, else what its geometry
/// gives, else what is usual on any engine; nothing if none is known.
std::optional<double> nominal_of(const Engine& engine, const Quantity& quantity);

/// Standard deviation of sound engines around it: half the tolerance or range of the figure, else
/// the knowledge's own.
double spread_of(const Engine& engine, const Quantity& quantity);

/// How far one cylinder's readings of it lie off on a sound engine, the instrument left out: what
/// sound cylinders differ by, and what each placing of crank and gauge adds (calc/depth_budget).
/// What is common to all cylinders (the top-centre mark, the gauge's zero) is not in it.
double reading_spread_of(const Engine& engine, const Quantity& quantity);

}  // namespace soot
