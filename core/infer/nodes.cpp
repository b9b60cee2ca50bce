#include "core/infer/nodes.hpp"

#include "core/infer/rare_states.hpp"
#include "core/infer/regime_grid.hpp"
#include "core/infer/regimes.hpp"
#include "core/infer/shares.hpp"

#include <algorithm>
#include <cmath>

namespace soot::infer {

namespace {

/// Likelihoods of one group: 128 MB.
constexpr double most_numbers = 1 << 24;
/// A regime may drop so many nodes below its floor.
const double log_most_dropped = std::log(4096.0);

class Layer {
 public:
  Layer(const NodeInput& input, double& budget)
      : input_(input),
        budget_(budget),
        readings_(precisions_of(input)),
        priors_(block_priors(input.prior)),
        shares_(input.commons) {
    nodes_.likelihood.resize(input.likelihoods.size());
    for (const BlockLikelihood& likelihood : input.likelihoods) {
      const double assignments = static_cast<double>(likelihood.assignments());
      numbers_a_node_ += assignments;
      steps_a_node_ += assignments * (1 + likelihood.bound_steps());
    }
  }

  std::optional<Nodes> run() {
    for (const std::vector<std::size_t>& states : regimes_of(input_, readings_))
      if (!lay(states)) return std::nullopt;
    if (input_.tolerance > 0)
      left_out_ = log_add(left_out_, drop_rare_states(input_.commons, mass_,
                                                      shares_.whole() + std::log(input_.tolerance),
                                                      nodes_.regimes));
    nodes_.log_scale = nothing;
    for (const Regime& regime : nodes_.regimes)
      for (const double one : regime.weight)
        nodes_.log_scale = std::max(nodes_.log_scale, one);
    for (Regime& regime : nodes_.regimes) {
      for (double& one : regime.weight)
        one -= nodes_.log_scale;
      exponentials(regime.weight.data(), regime.weight.size());
    }
    if (!nodes_.regimes.empty()) nodes_.left_out = std::exp(left_out_ - shares_.whole());
    return std::move(nodes_);
  }

 private:
  bool lay(const std::vector<std::size_t>& which) {
    std::vector<double> log_prior;
    for (const std::size_t s : which)
      log_prior.push_back(input_.log_prior[s]);
    double harmless = shares_.whole() + std::log(input_.tolerance);
    const double most = log_most(log_prior);
    std::vector<CommonState> states;
    if (most >= harmless) {
      states = input_.commons.make(which);
      harmless = std::max(harmless, shares_.harmless(states));
    }
    if (most < harmless) {
      left_out_ = log_add(left_out_, most);
      return true;
    }
    RegimeGrid grid(input_, readings_, priors_, states, log_prior, harmless);
    double ceiling = grid.log_ceiling();
    if (grid.axes() > 1 && ceiling >= harmless) {
      const auto mass = rough_mass(grid, harmless);
      if (!mass) return false;
      ceiling = std::min(ceiling, *mass);
    }
    if (ceiling == nothing || ceiling < harmless) {
      left_out_ = log_add(left_out_, ceiling);
      return true;
    }
    Precision precision;
    if (grid.axes() > 0)
      precision.step_in_tau =
          step_for(std::max(std::exp(harmless - ceiling), input_.tolerance), grid.axes());
    if (input_.tolerance > 0)
      precision.depth = std::min(precision.depth, log_most_dropped - std::log(input_.tolerance));
    precision.floor = harmless - log_most_dropped;
    if (!grid.look(precision, best_, budget_)) return false;
    const double sieved = static_cast<double>(grid.kept().size());
    if (input_.tolerance > 0)
      left_out_ = log_add(left_out_, grid.trim(harmless, std::log(input_.tolerance)));
    numbers_ += static_cast<double>(grid.kept().size()) * numbers_a_node_;
    budget_ -= static_cast<double>(grid.kept().size()) * steps_a_node_;
    if (numbers_ > most_numbers || budget_ < 0) return false;
    best_ = std::max(best_, grid.best());
    if (grid.kept().empty()) {
      left_out_ = log_add(left_out_, harmless);
      return true;
    }
    Regime regime;
    regime.first = nodes_.chunks;
    regime.faulty = states.front().fault.has_value();
    regime.states = which;
    mass_.emplace_back(which.size(), nothing);
    fill(grid, regime);
    double all = nothing;
    for (std::size_t i = 0; i < states.size(); ++i) {
      shares_.add(states[i], mass_.back()[i]);
      all = log_add(all, mass_.back()[i]);
    }
    // Cut off: less than as many nodes again, each below the floor or e^-depth of the best.
    const double cut = std::max(precision.floor, best_ - precision.depth) + std::log(sieved);
    left_out_ = log_add(left_out_, cut);
    const double error = static_cast<double>(grid.axes()) * precision.error() * 1.5;
    if (precision.error() <= Precision{}.error())
      nodes_.quadrature_error = std::max(nodes_.quadrature_error, error);
    else
      left_out_ = log_add(left_out_, all + std::log(error));
    nodes_.regimes.push_back(std::move(regime));
    return true;
  }

  /// About what a regime of several axes comes to, from a coarse look, with room for its error (a
  /// fiftieth an axis): the ceiling is far above it where the readings point elsewhere. Nothing if
  /// the budget ran out.
  std::optional<double> rough_mass(RegimeGrid& grid, double harmless) {
    Precision rough;
    rough.step_in_tau = 2;
    rough.floor = harmless - log_most_dropped;
    if (!grid.look(rough, best_, budget_)) return std::nullopt;
    double mass = harmless - std::log(2.0);  // what lies below the floor
    for (const double one : grid.log_masses())
      mass = log_add(mass, one);
    return mass + std::log(1.5);
  }

  /// The regime's prior times the greatest densities that the readings can have at all.
  double log_most(std::vector<double> log_prior) const {
    double most = log_sum(log_prior);
    for (const BlockLikelihood& likelihood : input_.likelihoods)
      most += likelihood.log_ceiling();
    return most;
  }

  void fill(RegimeGrid& grid, Regime& regime) {
    std::vector<const Place*> waiting;
    SmoothPiece* piece = nullptr;
    for (const auto& [place, value] : grid.kept()) {
      SmoothPiece* here = &grid.piece_of(place);
      if (here != piece || waiting.size() == lanes) flush(grid, piece, waiting, regime);
      piece = here;
      waiting.push_back(&place);
    }
    flush(grid, piece, waiting, regime);
  }

  void flush(RegimeGrid& grid, SmoothPiece* piece, std::vector<const Place*>& waiting,
             Regime& regime) {
    if (waiting.empty()) return;
    const std::size_t axes = grid.axes();
    std::vector<RegimeGrid::Node> nodes;
    std::vector<double> u(axes * lanes);
    for (std::size_t lane = 0; lane < lanes; ++lane) {
      nodes.push_back(grid.node(*waiting[std::min(lane, waiting.size() - 1)]));
      for (std::size_t a = 0; a < axes; ++a)
        u[a * lanes + lane] = nodes[lane].at[a] - piece->origin().at[grid.active()[a]];
    }
    double scale[lanes] = {}, whole[lanes] = {};
    for (std::size_t b = 0; b < input_.likelihoods.size(); ++b)
      add_block(piece->whole(b), b, u, scale, whole);
    for (std::size_t i = 0; i < regime.states.size(); ++i) {
      const double log_prior = input_.log_prior[regime.states[i]];
      double logs[lanes];
      for (std::size_t lane = 0; lane < lanes; ++lane) {
        const bool is_filling = lane >= waiting.size();
        const double log_weight =
            is_filling
                ? nothing
                : nodes[lane].log_weight + grid.state_look().log_density(i, nodes[lane].at.data());
        regime.weight.push_back(log_weight + scale[lane]);
        logs[lane] = log_weight + whole[lane] + log_prior;
      }
      mass_.back()[i] = log_add(mass_.back()[i], log_sum(logs, lanes));
    }
    ++regime.chunks;
    ++nodes_.chunks;
    waiting.clear();
  }

  /// `scale`: log of the greatest likelihood of the block at each node; `whole`: log of the sum
  /// over its assignments with their priors. Both are added.
  void add_block(const Quadratics& block, std::size_t b, const std::vector<double>& u,
                 double* scale, double* whole) {
    Nodes::Numbers& all = nodes_.likelihood[b];
    const std::size_t at = all.size();
    all.resize(at + block.count * lanes);
    double* rows = all.data() + at;
    block.rows(u.data(), rows);
    if (block.is_open()) predict(block, b, u);
    const std::vector<double>& prior = input_.prior[b];
    double top[lanes], sum[lanes] = {};
    std::fill_n(top, lanes, nothing);
    for (std::size_t x = 0; x < block.count; ++x)
      for (std::size_t lane = 0; lane < lanes; ++lane)
        if (prior[x] > 0) top[lane] = std::max(top[lane], rows[x * lanes + lane]);
    for (std::size_t x = 0; x < block.count; ++x)
      for (std::size_t lane = 0; lane < lanes; ++lane)
        rows[x * lanes + lane] =
            prior[x] > 0 && top[lane] > nothing ? rows[x * lanes + lane] - top[lane] : nothing;
    exponentials(rows, block.count * lanes);
    for (std::size_t x = 0; x < block.count; ++x)
      for (std::size_t lane = 0; lane < lanes; ++lane)
        sum[lane] += prior[x] * rows[x * lanes + lane];
    for (std::size_t lane = 0; lane < lanes; ++lane) {
      scale[lane] += top[lane];
      whole[lane] += top[lane] + std::log(sum[lane]);
    }
  }

  void predict(const Quadratics& block, std::size_t b, const std::vector<double>& u) {
    if (!nodes_.open) nodes_.open = OpenReading{b, {}, {}};
    OpenReading& open = *nodes_.open;
    const std::size_t at = open.mean.size();
    open.mean.resize(at + block.count * lanes);
    open.sd.resize(at + block.count * lanes);
    block.predict(u.data(), open.mean.data() + at, open.sd.data() + at);
  }

  const NodeInput& input_;
  double& budget_;
  ReadingPrecision readings_;
  std::vector<BlockPrior> priors_;
  Shares shares_;
  Nodes nodes_;
  double numbers_ = 0, numbers_a_node_ = 0, steps_a_node_ = 0;
  double best_ = nothing;
  double left_out_ = nothing;
  std::vector<std::vector<double>> mass_;  ///< log, one row a regime, one entry a state
};

}  // namespace

std::optional<Nodes> lay_nodes(const NodeInput& input, double& budget) {
  return Layer(input, budget).run();
}

}  // namespace soot::infer
