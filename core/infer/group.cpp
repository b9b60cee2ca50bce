#include "core/infer/group.hpp"

#include "core/infer/quadrature.hpp"

#include <algorithm>
#include <cmath>

namespace soot::infer {

namespace {

/// Where the blocks have few joint assignments, one covariance of all is less work than a grid of
/// several axes, of which it takes away the straight ones.
constexpr double few_assignments = 256;
constexpr std::ptrdiff_t several_axes = 2;

Group with_fewest_axes(const Network& network, const Instances& instances, const Evidence& evidence,
                       const Group& group, const std::vector<std::vector<Touch>>& touches) {
  double assignments = 1;
  for (const Block& block : group.blocks)
    assignments *= static_cast<double>(block.assignments);
  if (assignments > few_assignments || group.blocks.size() < 2) return group;
  const Directions directions = directions_of(network, instances, evidence, group);
  const auto open = [](const Direction& one) { return !one.closed; };
  const auto closable = [](const Direction& one) { return one.straight && !one.closed; };
  const bool fewer = std::any_of(directions.all.begin(), directions.all.end(), closable);
  const auto axes = std::count_if(directions.all.begin(), directions.all.end(), open);
  return fewer && axes >= several_axes ? as_one_block(group, network, instances, touches) : group;
}

std::vector<std::vector<bool>> possible_grades(const Instances& instances,
                                               const std::vector<Priors>& priors) {
  std::vector<std::vector<bool>> possible(instances.size());
  for (std::size_t i = 0; i < instances.size(); ++i)
    for (std::size_t g = 0; g < priors.front().grade[i].size(); ++g)
      possible[i].push_back(std::any_of(priors.begin(), priors.end(),
                                        [&](const Priors& one) { return one.grade[i][g] > 0; }));
  return possible;
}

/// Greatest prior of each joint assignment over the histories, the last cause's grade fastest.
std::vector<double> greatest_priors(const Block& block, const std::vector<Priors>& priors) {
  std::vector<double> greatest(block.assignments, 0.0);
  for (const Priors& one : priors) {
    std::vector<double> joint{1.0};
    for (const std::size_t i : block.instances) {
      std::vector<double> grown;
      for (const double before : joint)
        for (const double grade : one.grade[i])
          grown.push_back(before * grade);
      joint = std::move(grown);
    }
    for (std::size_t x = 0; x < greatest.size(); ++x)
      greatest[x] = std::max(greatest[x], joint[x]);
  }
  return greatest;
}

std::vector<double> greatest_log_priors(const Network& network, const Group& group,
                                        const Commons& commons, const std::vector<Priors>& priors) {
  std::vector<double> result;
  result.reserve(commons.size());
  for (std::size_t s = 0; s < commons.size(); ++s) {
    double greatest = 0;
    for (const Priors& one : priors) {
      double prior = 1;
      for (std::size_t i = 0; i < group.commons.size(); ++i)
        prior *= one.grade[group.commons[i]][commons.grade_of(s, i)];
      greatest = std::max(greatest, prior);
    }
    if (const auto fault = commons.fault_of(s))
      greatest *= network.instrument_faults[group.faults[*fault]].prior;
    result.push_back(std::log(greatest));
  }
  return result;
}

void plan_tables(const Network& network, const Instances& instances,
                 const std::vector<std::vector<Touch>>& touches, PreparedGroup& prepared) {
  BitList upto;
  for (const Block& block : prepared.group.blocks) {
    std::vector<std::size_t> radix;
    std::vector<BitList> bits;
    for (const std::size_t i : block.instances) {
      radix.push_back(network.causes[instances[i].cause].grades + 1);
      bits.emplace_back();
      for (const Touch& touch : touches[i]) {
        const auto global =
            std::lower_bound(prepared.group.bits.begin(), prepared.group.bits.end(), touch.bit);
        const auto place = static_cast<std::size_t>(global - prepared.group.bits.begin());
        const auto own = std::lower_bound(block.bits.begin(), block.bits.end(), place);
        bits.back().push_back(static_cast<std::size_t>(own - block.bits.begin()));
      }
    }
    prepared.blocks.emplace_back(radix, bits, block.bits.size());
    const Weave woven = weave(upto, block.bits);
    prepared.joins.emplace_back(woven, lanes);
    prepared.back.emplace_back(woven.turned(), lanes);
    upto = united(upto, block.bits);
  }
  prepared.spread.assign(std::size_t{1} << upto.size(), 0);
  for (std::size_t set = 0; set < prepared.spread.size(); ++set)
    for (std::size_t i = 0; i < upto.size(); ++i)
      if ((set >> i & 1) != 0) prepared.spread[set] |= std::size_t{1} << upto[i];
}

/// Steps of one chunk under one history, forward and backward.
double work_of_a_chunk(const PreparedGroup& prepared) {
  double rows = 0;
  BitList upto;
  for (std::size_t b = 0; b < prepared.blocks.size(); ++b) {
    const BitList& own = prepared.group.blocks[b].bits;
    const BitList after = united(upto, own);
    const double shared = static_cast<double>(upto.size() + own.size() - after.size());
    rows += 2 * prepared.blocks[b].work();
    if (b > 0) rows += 4 * std::pow(1.5, shared) * std::exp2(static_cast<double>(after.size()));
    upto = after;
  }
  return rows * static_cast<double>(lanes);
}

double work_of_states(const PreparedGroup& prepared) {
  double rows = 0;
  for (const Regime& regime : prepared.nodes.regimes)
    rows += static_cast<double>(regime.states.size() * (regime.chunks + 1));
  return 2 * rows * static_cast<double>(lanes * prepared.block_sets());
}

/// The states of the regimes that matter.
void make_states(const Commons& commons, PreparedGroup& prepared) {
  for (Regime& regime : prepared.nodes.regimes)
    for (std::size_t& state : regime.states) {
      prepared.states.emplace_back();
      commons.make(state, prepared.states.back());
      state = prepared.states.size() - 1;
    }
}

}  // namespace

Result<PreparedGroup> prepare_group(const Network& network, const Instances& instances,
                                    const Evidence& evidence, const Group& parted,
                                    const std::vector<std::vector<Touch>>& touches,
                                    const std::vector<Priors>& priors, double tolerance,
                                    double& budget) {
  const Group group = with_fewest_axes(network, instances, evidence, parted, touches);
  const double before = budget;
  const auto too_much = [before](const char* what, double asked) {
    return fail(Kind::data, "too much work: {} ask for about 2^{:.1f} steps (2^{:.1f} are left)",
                what, std::log2(std::max(asked, 1.0)), std::log2(std::max(before, 1.0)));
  };
  double assignments = 64 * static_cast<double>(Grades(network, instances, group.commons).total()) *
                       static_cast<double>(group.faults.size() + 1);
  for (const Block& block : group.blocks) {
    const double readings = static_cast<double>(block.readings.size());
    assignments += 100 * static_cast<double>(block.assignments) *
                   (readings * readings + static_cast<double>(block.instances.size()));
  }
  assignments += std::exp2(static_cast<double>(group.bits.size()));
  if (assignments > budget)
    return too_much("the joint grades of the causes that share readings", assignments);
  budget -= assignments;

  PreparedGroup prepared;
  prepared.group = group;
  plan_tables(network, instances, touches, prepared);
  const double a_chunk = work_of_a_chunk(prepared) * static_cast<double>(priors.size());
  if (a_chunk > budget) return too_much("the tables of the readings", a_chunk);
  const Directions directions = directions_of(network, instances, evidence, group);
  const Commons commons(network, instances, prepared.group, directions,
                        possible_grades(instances, priors));
  std::vector<BlockLikelihood> likelihoods;
  std::vector<std::vector<double>> prior;
  likelihoods.reserve(group.blocks.size());
  for (const Block& block : prepared.group.blocks) {
    likelihoods.emplace_back(network, instances, evidence, directions, block);
    prior.push_back(greatest_priors(block, priors));
  }
  const std::vector<double> log_prior =
      greatest_log_priors(network, prepared.group, commons, priors);
  auto nodes = lay_nodes({network, evidence, prepared.group, directions, commons, log_prior, prior,
                          likelihoods, tolerance},
                         budget);
  if (!nodes)
    return fail(Kind::data,
                "too much work: the shared shifts of the readings ask for too many nodes (fewer "
                "quantities read in common, or a higher limit)");
  prepared.nodes = std::move(*nodes);
  make_states(commons, prepared);
  prepared.pass_work = work_of_a_chunk(prepared) * static_cast<double>(prepared.nodes.chunks) +
                       work_of_states(prepared);
  const double work = prepared.pass_work * static_cast<double>(priors.size());
  if (work > budget) return too_much("the tables of the readings", work);
  budget -= work;
  prepared.error = prepared.nodes.error();
  for (const BlockLikelihood& one : likelihoods)
    if (one.has_bounds()) prepared.error += Precision{}.error();
  return prepared;
}

}  // namespace soot::infer
