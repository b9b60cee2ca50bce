#include "core/infer/nodes.hpp"

#include "core/infer/grid.hpp"

#include <cmath>
#include <map>

namespace soot::infer {

namespace {

std::size_t active_directions(const NodeInput& input, const CommonState& state) {
  std::size_t count = 0;
  for (std::size_t d = 0; d < state.mean.size(); ++d)
    if (!is_point(input, state, d)) ++count;
  return count;
}

/// States with equal keys share nodes; narrow ones (a magnitude known far better than the readings
/// could tell) do not share with wide ones, whose range they would fill with a fine grid.
std::vector<double> key_of(const NodeInput& input, const CommonState& state) {
  std::vector<double> key{static_cast<double>(active_directions(input, state))};
  key.insert(key.end(), state.scatter.begin(), state.scatter.end());
  key.push_back(state.fault ? 1 : 0);
  for (std::size_t d = 0; d < state.mean.size(); ++d) {
    const bool point = is_point(input, state, d);
    key.push_back(point ? 0 : 1);
    key.push_back(point ? state.mean[d]
                        : std::floor(std::log2(narrowest(input, d, state.variance[d], 0)) / 2));
    key.push_back(point ? state.variance[d] : 0);
  }
  return key;
}

}  // namespace

Result<std::vector<Regime>> lay_nodes(const NodeInput& input,
                                      std::vector<BlockLikelihood>& likelihoods, double& budget) {
  // The key begins with the number of directions: the single points and lines come first, and the
  // larger grids are pruned against them.
  std::map<std::vector<double>, Regime> by_key;
  for (std::size_t s = 0; s < input.states.size(); ++s) {
    Regime& regime = by_key[key_of(input, input.states[s])];
    regime.states.push_back(s);
    regime.faulty = input.states[s].fault.has_value();
  }
  std::vector<Regime> regimes;
  Whole whole;
  for (auto& [key, regime] : by_key) {
    if (!lay_regime(input, likelihoods, regime, whole, budget))
      return fail(Kind::data,
                  "too much work: the shared shifts of the readings ask for too many nodes (fewer "
                  "quantities read in common, or a higher limit)");
    if (!regime.nodes.empty()) regimes.push_back(std::move(regime));
  }
  if (!regimes.empty()) regimes.front().error += whole.dropped;
  return regimes;
}

}  // namespace soot::infer
