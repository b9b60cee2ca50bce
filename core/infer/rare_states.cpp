#include "core/infer/rare_states.hpp"

#include "core/infer/shares.hpp"

#include <algorithm>
#include <map>
#include <tuple>
#include <utility>

namespace soot::infer {

namespace {

/// Place of a common and its grade; after the commons, the fault.
using GradeOrFault = std::pair<std::size_t, std::size_t>;

std::vector<GradeOrFault> grades_and_fault(const CommonState& state) {
  std::vector<GradeOrFault> all;
  for (std::size_t c = 0; c < state.grades.size(); ++c)
    if (state.grades[c] > 0) all.emplace_back(c, state.grades[c]);
  if (state.fault) all.emplace_back(state.grades.size(), *state.fault);
  return all;
}

void keep(Regime& regime, const std::vector<bool>& stays) {
  std::vector<double> weight;
  for (std::size_t at = 0; at < regime.weight.size(); ++at)
    if (stays[at / lanes % stays.size()]) weight.push_back(regime.weight[at]);
  std::vector<std::size_t> states;
  for (std::size_t i = 0; i < stays.size(); ++i)
    if (stays[i]) states.push_back(regime.states[i]);
  regime.weight = std::move(weight);
  regime.states = std::move(states);
}

}  // namespace

double drop_rare_states(const Commons& commons, const std::vector<std::vector<double>>& mass,
                        double harmless, std::vector<Regime>& regimes) {
  std::vector<double> all;
  for (const std::vector<double>& row : mass)
    all.insert(all.end(), row.begin(), row.end());
  if (all.empty()) return nothing;
  const auto [least, dropped] = tail_of(all, harmless);

  std::vector<std::vector<bool>> stays;
  std::map<GradeOrFault, std::pair<std::size_t, std::size_t>> greatest;  // regime and place in it
  CommonState state;
  for (std::size_t r = 0; r < regimes.size(); ++r) {
    stays.emplace_back();
    for (std::size_t i = 0; i < mass[r].size(); ++i) {
      stays[r].push_back(mass[r][i] >= least);
      commons.make(regimes[r].states[i], state);
      for (const GradeOrFault& one : grades_and_fault(state)) {
        auto& [top_r, top_i] = greatest.try_emplace(one, r, i).first->second;
        if (mass[r][i] > mass[top_r][top_i]) std::tie(top_r, top_i) = std::pair{r, i};
      }
    }
    const auto most = std::max_element(mass[r].begin(), mass[r].end());
    stays[r][static_cast<std::size_t>(most - mass[r].begin())] = true;
  }
  for (const auto& [one, top] : greatest)
    stays[top.first][top.second] = true;
  for (std::size_t r = 0; r < regimes.size(); ++r)
    keep(regimes[r], stays[r]);
  return dropped;
}

}  // namespace soot::infer
