#include "core/infer/laid_regime.hpp"

#include <algorithm>
#include <cmath>

namespace soot::infer {

namespace {

/// A regime may drop so many nodes below its floor.
const double log_most_dropped = std::log(4096.0);

class RegimeLayer {
 public:
  RegimeLayer(const RegimeInput& input, const LaidSoFar& so_far, double& budget)
      : input_(input), nodes_(input.nodes), so_far_(so_far), budget_(budget) {
    laid_.likelihood.resize(nodes_.likelihoods.size());
  }

  std::optional<LaidRegime> run(const std::vector<std::size_t>& which) {
    std::vector<double> log_prior;
    for (const std::size_t s : which)
      log_prior.push_back(nodes_.log_prior[s]);
    laid_.states = nodes_.commons.make(which);
    const double harmless = std::max(so_far_.shares.whole() + std::log(nodes_.tolerance),
                                     so_far_.shares.harmless(laid_.states));
    if (const double most = most_of(nodes_, which); most < harmless) return without(most);
    RegimeGrid grid(nodes_, input_.readings, input_.priors, laid_.states, log_prior, harmless);
    double ceiling = grid.log_ceiling();
    if (grid.axes() > 1 && ceiling >= harmless) {
      const auto mass = rough_mass(grid, harmless);
      if (!mass) return std::nullopt;
      ceiling = std::min(ceiling, *mass);
    }
    if (ceiling == nothing || ceiling < harmless) return without(ceiling);
    Precision precision;
    if (grid.axes() > 0)
      precision.step_in_tau =
          step_for(std::max(std::exp(harmless - ceiling), nodes_.tolerance), grid.axes());
    if (nodes_.tolerance > 0)
      precision.depth = std::min(precision.depth, log_most_dropped - std::log(nodes_.tolerance));
    precision.floor = harmless - log_most_dropped;
    if (!grid.look(precision, so_far_.best, budget_)) return std::nullopt;
    const double sieved = static_cast<double>(grid.kept().size());
    if (nodes_.tolerance > 0) laid_.left_out = grid.trim(harmless, std::log(nodes_.tolerance));
    if (!spend(static_cast<double>(grid.kept().size()))) return std::nullopt;
    laid_.best = grid.best();
    if (grid.kept().empty()) return without(harmless);
    laid_.regime.faulty = laid_.states.front().fault.has_value();
    laid_.regime.states = which;
    laid_.mass.assign(which.size(), nothing);
    fill(grid);
    double all = nothing;
    for (const double one : laid_.mass)
      all = log_add(all, one);
    // Cut off: less than as many nodes again, each below the floor or e^-depth of the best.
    const double best = std::max(so_far_.best, laid_.best);
    const double cut = std::max(precision.floor, best - precision.depth) + std::log(sieved);
    laid_.left_out = log_add(laid_.left_out, cut);
    const double error = static_cast<double>(grid.axes()) * precision.error() * 1.5;
    if (precision.error() <= Precision{}.error())
      laid_.quadrature_error = error;
    else
      laid_.left_out = log_add(laid_.left_out, all + std::log(error));
    return std::move(laid_);
  }

 private:
  LaidRegime without(double mass) {
    laid_.left_out = log_add(laid_.left_out, mass);
    return std::move(laid_);
  }

  bool spend(double nodes) {
    double steps = 0;
    for (const BlockLikelihood& likelihood : nodes_.likelihoods) {
      const double assignments = static_cast<double>(likelihood.assignments());
      laid_.numbers += nodes * assignments;
      steps += nodes * assignments * (1 + likelihood.bound_steps());
    }
    budget_ -= steps;
    return budget_ >= 0 && laid_.numbers <= most_node_numbers;
  }

  /// About what a regime of several axes comes to, from a coarse look, with room for its error (a
  /// fiftieth an axis): the ceiling is far above it where the readings point elsewhere. Nothing if
  /// the budget ran out.
  std::optional<double> rough_mass(RegimeGrid& grid, double harmless) {
    Precision rough;
    rough.step_in_tau = 2;
    rough.floor = harmless - log_most_dropped;
    if (!grid.look(rough, so_far_.best, budget_)) return std::nullopt;
    double mass = harmless - std::log(2.0);  // what lies below the floor
    for (const double one : grid.log_masses())
      mass = log_add(mass, one);
    return mass + std::log(1.5);
  }

  void fill(RegimeGrid& grid) {
    std::vector<const Place*> waiting;
    SmoothPiece* piece = nullptr;
    for (const auto& [place, value] : grid.kept()) {
      SmoothPiece* here = &grid.piece_of(place);
      if (here != piece || waiting.size() == lanes) flush(grid, piece, waiting);
      piece = here;
      waiting.push_back(&place);
    }
    flush(grid, piece, waiting);
  }

  void flush(RegimeGrid& grid, SmoothPiece* piece, std::vector<const Place*>& waiting) {
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
    for (std::size_t b = 0; b < nodes_.likelihoods.size(); ++b)
      add_block(piece->whole(b), b, u, scale, whole);
    for (std::size_t i = 0; i < laid_.regime.states.size(); ++i) {
      const double log_prior = nodes_.log_prior[laid_.regime.states[i]];
      double logs[lanes];
      for (std::size_t lane = 0; lane < lanes; ++lane) {
        const bool is_filling = lane >= waiting.size();
        const double log_weight =
            is_filling
                ? nothing
                : nodes[lane].log_weight + grid.state_look().log_density(i, nodes[lane].at.data());
        laid_.regime.weight.push_back(log_weight + scale[lane]);
        logs[lane] = log_weight + whole[lane] + log_prior;
      }
      laid_.mass[i] = log_add(laid_.mass[i], log_sum(logs, lanes));
    }
    ++laid_.regime.chunks;
    waiting.clear();
  }

  /// `scale`: log of the greatest likelihood of the block at each node; `whole`: log of the sum
  /// over its assignments with their priors. Both are added.
  void add_block(const Quadratics& block, std::size_t b, const std::vector<double>& u,
                 double* scale, double* whole) {
    Nodes::Numbers& all = laid_.likelihood[b];
    const std::size_t at = all.size();
    all.resize(at + block.count * lanes);
    double* rows = all.data() + at;
    block.rows(u.data(), rows);
    if (block.is_open()) predict(block, b, u);
    const std::vector<double>& prior = nodes_.prior[b];
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
    if (!laid_.open) laid_.open = OpenReading{b, {}, {}};
    OpenReading& open = *laid_.open;
    const std::size_t at = open.mean.size();
    open.mean.resize(at + block.count * lanes);
    open.sd.resize(at + block.count * lanes);
    block.predict(u.data(), open.mean.data() + at, open.sd.data() + at);
  }

  const RegimeInput& input_;
  const NodeInput& nodes_;
  const LaidSoFar& so_far_;
  double& budget_;
  LaidRegime laid_;
};

}  // namespace

double most_of(const NodeInput& input, const std::vector<std::size_t>& states) {
  std::vector<double> log_prior;
  for (const std::size_t s : states)
    log_prior.push_back(input.log_prior[s]);
  double most = log_sum(log_prior);
  for (const BlockLikelihood& likelihood : input.likelihoods)
    most += likelihood.log_ceiling();
  return most;
}

std::optional<LaidRegime> lay_regime(const RegimeInput& input,
                                     const std::vector<std::size_t>& states,
                                     const LaidSoFar& so_far, double& budget) {
  return RegimeLayer(input, so_far, budget).run(states);
}

}  // namespace soot::infer
