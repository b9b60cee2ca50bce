#include "core/infer/group.hpp"

#include "core/infer/quadrature.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace soot::infer {

namespace {

constexpr std::size_t lanes_of_a_chunk = 64;

std::vector<std::vector<bool>> possible_grades(const Instances& instances,
                                               const std::vector<Priors>& priors) {
  std::vector<std::vector<bool>> possible(instances.size());
  for (std::size_t i = 0; i < instances.size(); ++i)
    for (std::size_t g = 0; g < priors.front().grade[i].size(); ++g)
      possible[i].push_back(std::any_of(priors.begin(), priors.end(),
                                        [&](const Priors& one) { return one.grade[i][g] > 0; }));
  return possible;
}

/// Greatest prior of each joint assignment over the histories.
std::vector<double> greatest_priors(const Network& network, const Instances& instances,
                                    const Block& block, const std::vector<Priors>& priors) {
  const Grades grades(network, instances, block.instances);
  std::vector<double> greatest(grades.total(), 0.0);
  for (const Priors& one : priors)
    for (std::size_t x = 0; x < greatest.size(); ++x) {
      double prior = 1;
      for (std::size_t i = 0; i < block.instances.size(); ++i)
        prior *= one.grade[block.instances[i]][grades.of(x, i)];
      greatest[x] = std::max(greatest[x], prior);
    }
  return greatest;
}

std::vector<double> greatest_log_priors(const Network& network, const PreparedGroup& prepared,
                                        const std::vector<Priors>& priors) {
  std::vector<double> result;
  for (const CommonState& state : prepared.states) {
    double greatest = 0;
    for (const Priors& one : priors) {
      double prior = 1;
      for (std::size_t i = 0; i < state.grades.size(); ++i)
        prior *= one.grade[prepared.group.commons[i]][state.grades[i]];
      greatest = std::max(greatest, prior);
    }
    if (state.fault)
      greatest *= network.instrument_faults[prepared.group.faults[*state.fault]].prior;
    result.push_back(std::log(greatest));
  }
  return result;
}

double pass_work(const PreparedGroup& prepared, std::size_t histories) {
  double a_node = 0;
  const double bits = static_cast<double>(prepared.group.bits.size());
  for (const Block& block : prepared.group.blocks) {
    const double own = static_cast<double>(block.bits.size());
    a_node += static_cast<double>(block.assignments) * std::exp2(own) +
              std::pow(3.0, own) * std::exp2(bits - own);
  }
  double states = 0;
  for (std::size_t r = 0; r < prepared.regimes.size(); ++r)
    states +=
        static_cast<double>(prepared.regimes[r].states.size() * prepared.regimes[r].nodes.size());
  return 3 * static_cast<double>(histories) *
         (a_node * static_cast<double>(prepared.nodes) + states);
}

void fill_likelihoods(PreparedGroup& prepared, std::vector<BlockLikelihood>& likelihoods,
                      const std::vector<std::vector<double>>& prior) {
  std::vector<double> density;
  std::vector<double> node_scale;
  for (std::size_t r = 0; r < prepared.regimes.size(); ++r) {
    for (std::size_t s = 0; s < prepared.regimes[r].nodes.size(); ++s) {
      const std::size_t node = prepared.first_node[r] + s;
      double scale = 0;
      for (std::size_t b = 0; b < likelihoods.size(); ++b) {
        likelihoods[b].log_density(prepared.regimes[r].nodes[s], density);
        double top = -std::numeric_limits<double>::infinity();
        for (std::size_t x = 0; x < density.size(); ++x)
          if (prior[b][x] > 0) top = std::max(top, density[x]);
        for (std::size_t x = 0; x < density.size(); ++x)
          prepared.likelihood[b][x * prepared.nodes + node] =
              prior[b][x] > 0 ? std::exp(density[x] - top) : 0;
        scale += top;
      }
      node_scale.push_back(scale);
    }
  }
  prepared.log_scale = -std::numeric_limits<double>::infinity();
  for (std::size_t r = 0; r < prepared.regimes.size(); ++r)
    for (std::size_t s = 0; s < prepared.regimes[r].nodes.size(); ++s)
      for (const double log_weight : prepared.regimes[r].log_weight[s])
        prepared.log_scale =
            std::max(prepared.log_scale, log_weight + node_scale[prepared.first_node[r] + s]);
  for (std::size_t r = 0; r < prepared.regimes.size(); ++r) {
    const Regime& regime = prepared.regimes[r];
    std::vector<double> weight;
    for (std::size_t i = 0; i < regime.states.size(); ++i)
      for (std::size_t s = 0; s < regime.nodes.size(); ++s)
        weight.push_back(std::exp(regime.log_weight[s][i] + node_scale[prepared.first_node[r] + s] -
                                  prepared.log_scale));
    prepared.weight.push_back(std::move(weight));
  }
}

}  // namespace

Result<PreparedGroup> prepare_group(const Network& network, const Instances& instances,
                                    const Evidence& evidence, const Group& group,
                                    const std::vector<Priors>& priors, double tolerated,
                                    double& budget) {
  const double before = budget;
  const auto too_much = [before](const char* what, double asked) {
    return fail(Kind::data, "too much work: {} ask for about 2^{:.1f} steps (2^{:.1f} are left)",
                what, std::log2(std::max(asked, 1.0)), std::log2(std::max(before, 1.0)));
  };
  double assignments = static_cast<double>(Grades(network, instances, group.commons).total()) *
                       static_cast<double>(group.faults.size() + 1);
  for (const Block& block : group.blocks) {
    const double readings = static_cast<double>(block.readings.size());
    assignments += static_cast<double>(block.assignments) *
                   (readings * readings + std::exp2(static_cast<double>(block.bits.size())));
  }
  if (assignments > budget)
    return too_much("the joint grades of the causes that share readings", assignments);
  budget -= assignments;

  PreparedGroup prepared;
  prepared.group = group;
  const Directions directions = directions_of(network, instances, evidence, group);
  prepared.states =
      common_states(network, instances, group, directions, possible_grades(instances, priors));
  std::vector<BlockLikelihood> likelihoods;
  std::vector<std::vector<double>> prior;
  for (const Block& block : group.blocks) {
    likelihoods.emplace_back(network, instances, evidence, directions, block);
    prior.push_back(greatest_priors(network, instances, block, priors));
  }
  const std::vector<double> log_prior = greatest_log_priors(network, prepared, priors);
  auto regimes = lay_nodes(
      {network, evidence, group, directions, prepared.states, log_prior, prior, tolerated},
      likelihoods, budget);
  if (!regimes) return pass_on(regimes);
  prepared.regimes = std::move(*regimes);
  for (std::size_t r = 0; r < prepared.regimes.size(); ++r) {
    const std::size_t count = prepared.regimes[r].nodes.size();
    prepared.first_node.push_back(prepared.nodes);
    for (std::size_t s = 0; s < count; s += lanes_of_a_chunk)
      prepared.chunks.push_back({r, prepared.nodes + s, std::min(lanes_of_a_chunk, count - s)});
    prepared.nodes += count;
    prepared.error += prepared.regimes[r].error;
  }
  const double work = pass_work(prepared, priors.size());
  if (work > budget) return too_much("the tables of the readings", work);
  budget -= work;
  for (const Block& block : group.blocks)
    prepared.likelihood.emplace_back(block.assignments * prepared.nodes);
  fill_likelihoods(prepared, likelihoods, prior);
  for (const BlockLikelihood& one : likelihoods)
    prepared.error += one.censored_depth() > 0 ? Precision{}.error() : 0;
  return prepared;
}

}  // namespace soot::infer
