#include "core/infer/regimes.hpp"

#include "core/infer/shares.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

namespace soot::infer {

namespace {

/// States with equal keys share nodes; narrow ones (a magnitude known far better than the readings
/// could tell) do not share with wide ones, whose range they would fill with a fine grid.
std::vector<double> key_of(const NodeInput& input, const ReadingPrecision& readings,
                           const CommonState& state) {
  std::vector<double> key{0};
  key.insert(key.end(), state.scatter.begin(), state.scatter.end());
  key.push_back(state.fault ? 1 : 0);
  for (std::size_t d = 0; d < state.mean.size(); ++d) {
    const bool point = is_point(input.directions, state, d);
    if (!point) ++key[0];
    key.push_back(point ? 0 : 1);
    key.push_back(
        point ? state.mean[d]
              : std::floor(
                    std::log2(narrowest(input.directions, readings, d, state.variance[d], 0)) / 2));
    key.push_back(point ? state.variance[d] : 0);
  }
  return key;
}

}  // namespace

ReadingPrecision precisions_of(const NodeInput& input) {
  std::map<std::pair<std::size_t, int>, double> instruments;
  for (const Block& block : input.group.blocks)
    for (const std::size_t r : block.readings) {
      const Reading& reading = input.evidence.readings[r];
      instruments[{reading.quantity, reading.cylinder}] += 1 / (reading.sd * reading.sd);
    }
  ReadingPrecision result;
  for (const auto& [key, sum] : instruments) {
    const double spread = input.network.quantities[key.first].spread;
    result.emplace_back(key.first, 1 / (spread * spread + 1 / sum));
  }
  return result;
}

std::vector<std::vector<std::size_t>> regimes_of(const NodeInput& input,
                                                 const ReadingPrecision& readings) {
  std::map<std::vector<double>, std::vector<std::size_t>> by_key;
  CommonState state;
  for (std::size_t s = 0; s < input.commons.size(); ++s) {
    input.commons.make(s, state);
    by_key[key_of(input, readings, state)].push_back(s);
  }
  std::vector<std::tuple<double, double, std::vector<std::size_t>>> ordered;
  for (auto& [key, states] : by_key) {
    double most = nothing;
    for (const std::size_t s : states)
      most = std::max(most, input.log_prior[s]);
    ordered.emplace_back(key[0], -most, std::move(states));
  }
  std::stable_sort(ordered.begin(), ordered.end(), [](const auto& a, const auto& b) {
    return std::tie(std::get<0>(a), std::get<1>(a)) < std::tie(std::get<0>(b), std::get<1>(b));
  });
  std::vector<std::vector<std::size_t>> result;
  for (auto& one : ordered)
    result.push_back(std::move(std::get<2>(one)));
  return result;
}

}  // namespace soot::infer
