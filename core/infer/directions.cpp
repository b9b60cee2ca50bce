#include "core/infer/directions.hpp"

#include <algorithm>
#include <cmath>
#include <set>

namespace soot::infer {

double Direction::steepest(std::size_t quantity) const {
  return shift[quantity] ? shift[quantity]->steepest() : 0;
}

namespace {

using Pattern = std::vector<std::optional<Curve>>;

/// Factor r with a = r b on every quantity, both straight; nothing if there is none.
std::optional<double> proportion(const Pattern& a, const Pattern& b) {
  std::optional<double> ratio;
  for (std::size_t q = 0; q < a.size(); ++q) {
    if (a[q].has_value() != b[q].has_value()) return std::nullopt;
    if (!a[q]) continue;
    if (!a[q]->is_straight() || !b[q]->is_straight()) return std::nullopt;
    const double here = a[q]->slope_at(0) / b[q]->slope_at(0);
    if (ratio && std::abs(*ratio - here) > 1e-12 * std::abs(here)) return std::nullopt;
    ratio = here;
  }
  return ratio;
}

std::optional<Share> place(Directions& directions, Pattern pattern) {
  bool moves = false;
  bool straight = true;
  for (const auto& curve : pattern) {
    moves = moves || curve.has_value();
    straight = straight && !(curve && !curve->is_straight());
  }
  if (!moves) return std::nullopt;
  for (std::size_t d = 0; d < directions.all.size(); ++d)
    if (const auto ratio = proportion(pattern, directions.all[d].shift)) return Share{d, *ratio};
  directions.all.push_back({std::move(pattern), straight, false, false});
  return Share{directions.all.size() - 1, 1};
}

}  // namespace

Directions directions_of(const Network& network, const Instances& instances,
                         const Evidence& evidence, const Group& group) {
  Directions directions;
  directions.of_term.resize(network.terms.size());
  directions.of_fault.resize(network.instrument_faults.size());
  std::vector<std::set<std::size_t>> blocks_of(network.quantities.size());
  for (std::size_t b = 0; b < group.blocks.size(); ++b)
    for (const std::size_t r : group.blocks[b].readings)
      blocks_of[evidence.readings[r].quantity].insert(b);

  std::set<std::size_t> terms;
  for (const std::size_t common : group.commons)
    for (const Effect& effect : network.causes[instances[common].cause].effects)
      terms.insert(effect.term);
  for (const std::size_t term : terms) {
    Pattern pattern(network.quantities.size());
    for (std::size_t q = 0; q < network.quantities.size(); ++q) {
      if (blocks_of[q].empty()) continue;
      for (const Response& response : network.quantities[q].responses)
        if (response.term == term &&
            !(response.shift.is_straight() && response.shift.slope_at(0) == 0))
          pattern[q] = response.shift;
    }
    directions.of_term[term] = place(directions, std::move(pattern));
  }
  for (const std::size_t fault : group.faults) {
    Pattern pattern(network.quantities.size());
    pattern[network.instrument_faults[fault].quantity] = Curve(1.0);
    directions.of_fault[fault] = place(directions, std::move(pattern));
  }
  for (Direction& direction : directions.all) {
    std::set<std::size_t> heard_by;
    for (std::size_t q = 0; q < direction.shift.size(); ++q)
      if (direction.shift[q]) heard_by.insert(blocks_of[q].begin(), blocks_of[q].end());
    direction.closed = direction.straight && heard_by.size() == 1;
  }
  const auto note_uneven = [&](const Cause& cause) {
    for (const Effect& effect : cause.effects) {
      if (cause.scope == Scope::engine && effect.scatter.empty()) continue;
      const auto& share = directions.of_term[effect.term];
      if (share && !directions.all[share->direction].straight)
        directions.all[share->direction].uneven = true;
    }
  };
  for (const std::size_t common : group.commons)
    note_uneven(network.causes[instances[common].cause]);
  for (const Block& block : group.blocks)
    for (const std::size_t own : block.instances)
      note_uneven(network.causes[instances[own].cause]);
  return directions;
}

}  // namespace soot::infer
