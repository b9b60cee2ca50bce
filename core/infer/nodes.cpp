#include "core/infer/nodes.hpp"

#include "core/base/parallel.hpp"
#include "core/infer/laid_regime.hpp"
#include "core/infer/rare_states.hpp"
#include "core/infer/regimes.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace soot::infer {

namespace {

/// So many regimes are laid from what the same others have come to: the same on any machine. The
/// first ones alone, for they tell of the most that the rest do not matter.
constexpr std::size_t most_side_by_side = 8;

using States = std::vector<std::size_t>;

class Layer {
 public:
  Layer(const NodeInput& input, double& budget)
      : input_(input),
        budget_(budget),
        readings_(precisions_of(input)),
        priors_(block_priors(input.prior)),
        so_far_{Shares(input.commons), nothing} {
    nodes_.likelihood.resize(input.likelihoods.size());
  }

  std::optional<Nodes> run() {
    std::vector<States> batch;
    std::size_t side_by_side = 1;
    for (States& states : regimes_of(input_, readings_)) {
      if (const double most = most_of(input_, states); most < harmless()) {
        left_out_ = log_add(left_out_, most);
        continue;
      }
      batch.push_back(std::move(states));
      if (batch.size() < side_by_side) continue;
      if (!lay(batch)) return std::nullopt;
      batch.clear();
      side_by_side = std::min(2 * side_by_side, most_side_by_side);
    }
    if (!lay(batch)) return std::nullopt;
    if (input_.tolerance > 0)
      left_out_ =
          log_add(left_out_, drop_rare_states(input_.commons, mass_, harmless(), nodes_.regimes));
    nodes_.log_scale = nothing;
    for (const Regime& regime : nodes_.regimes)
      for (const double one : regime.weight)
        nodes_.log_scale = std::max(nodes_.log_scale, one);
    for (Regime& regime : nodes_.regimes) {
      for (double& one : regime.weight)
        one -= nodes_.log_scale;
      exponentials(regime.weight.data(), regime.weight.size());
    }
    if (!nodes_.regimes.empty()) nodes_.left_out = std::exp(left_out_ - so_far_.shares.whole());
    return std::move(nodes_);
  }

 private:
  double harmless() const { return so_far_.shares.whole() + std::log(input_.tolerance); }

  bool lay(const std::vector<States>& batch) {
    std::vector<std::optional<LaidRegime>> laid(batch.size());
    std::vector<double> left(batch.size(), budget_);
    if (batch.size() == 1)
      laid[0] = lay_regime({input_, readings_, priors_}, batch[0], so_far_, left[0]);
    else
      in_parallel(batch.size(), [&](std::size_t i) {
        std::vector<BlockLikelihood> likelihoods = input_.likelihoods;
        const NodeInput own = input_.with(likelihoods);
        laid[i] = lay_regime({own, readings_, priors_}, batch[i], so_far_, left[i]);
      });
    const double before = budget_;
    for (std::size_t i = 0; i < batch.size(); ++i) {
      budget_ -= before - left[i];
      if (!laid[i] || budget_ < 0 || !take(std::move(*laid[i]))) return false;
    }
    return true;
  }

  bool take(LaidRegime laid) {
    left_out_ = log_add(left_out_, laid.left_out);
    nodes_.quadrature_error = std::max(nodes_.quadrature_error, laid.quadrature_error);
    so_far_.best = std::max(so_far_.best, laid.best);
    numbers_ += laid.numbers;
    if (numbers_ > most_node_numbers) return false;
    if (laid.regime.chunks == 0) return true;
    for (std::size_t b = 0; b < laid.likelihood.size(); ++b)
      append(nodes_.likelihood[b], std::move(laid.likelihood[b]));
    if (laid.open) {
      if (!nodes_.open) nodes_.open = OpenReading{laid.open->block, {}, {}};
      append(nodes_.open->mean, std::move(laid.open->mean));
      append(nodes_.open->sd, std::move(laid.open->sd));
    }
    for (std::size_t i = 0; i < laid.states.size(); ++i)
      so_far_.shares.add(laid.states[i], laid.mass[i]);
    mass_.push_back(std::move(laid.mass));
    laid.regime.first = nodes_.chunks;
    nodes_.chunks += laid.regime.chunks;
    nodes_.regimes.push_back(std::move(laid.regime));
    return true;
  }

  static void append(Nodes::Numbers& to, Nodes::Numbers more) {
    if (to.empty())
      to = std::move(more);
    else
      to.insert(to.end(), more.begin(), more.end());
  }

  const NodeInput& input_;
  double& budget_;
  ReadingPrecision readings_;
  std::vector<BlockPrior> priors_;
  LaidSoFar so_far_;
  Nodes nodes_;
  double numbers_ = 0;
  double left_out_ = nothing;
  std::vector<std::vector<double>> mass_;  ///< log, one row a regime, one entry a state
};

}  // namespace

std::optional<Nodes> lay_nodes(const NodeInput& input, double& budget) {
  return Layer(input, budget).run();
}

}  // namespace soot::infer
