#include "core/infer/regimes.hpp"

#include "core/infer/shares.hpp"

#include <boost/container_hash/hash.hpp>

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>
#include <unordered_map>

namespace soot::infer {

namespace {

/// States with equal keys share nodes; narrow ones (a magnitude known far better than the readings
/// could tell) do not share with wide ones, whose range they would fill with a fine grid.
using Key = std::vector<double>;

void make_key(const NodeInput& input, const ReadingPrecision& readings, const CommonState& state,
              Key& key) {
  key.assign(1, 0);
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
  for (std::size_t t = 0; t < state.scatter.size(); ++t)
    if (state.scatter[t] > 0) {
      key.push_back(static_cast<double>(t));
      key.push_back(state.scatter[t]);
    }
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
  std::unordered_map<Key, std::vector<std::size_t>, boost::hash<Key>> by_key;
  CommonState state;
  Key key;
  for (std::size_t s = 0; s < input.commons.size(); ++s) {
    input.commons.make(s, state);
    make_key(input, readings, state, key);
    by_key[key].push_back(s);
  }
  std::vector<std::tuple<double, double, Key, std::vector<std::size_t>>> ordered;
  for (auto& [of_all, states] : by_key) {
    double most = nothing;
    for (const std::size_t s : states)
      most = std::max(most, input.log_prior[s]);
    ordered.emplace_back(of_all[0], -most, of_all, std::move(states));
  }
  std::sort(ordered.begin(), ordered.end());
  std::vector<std::vector<std::size_t>> result;
  for (auto& one : ordered)
    result.push_back(std::move(std::get<3>(one)));
  return result;
}

}  // namespace soot::infer
