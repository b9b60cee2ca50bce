#include "core/infer/smooth_piece.hpp"

#include "core/infer/shares.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <tuple>

namespace soot::infer {

std::vector<BlockPrior> block_priors(const std::vector<std::vector<double>>& prior) {
  constexpr std::size_t least = 32, part = 16;
  std::vector<BlockPrior> all;
  for (const std::vector<double>& row : prior) {
    BlockPrior block;
    for (const double one : row)
      block.log.push_back(std::log(one));
    std::vector<std::size_t> order(row.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    const std::size_t few = std::min(row.size(), std::max(least, row.size() / part));
    std::partial_sort(
        order.begin(), order.begin() + static_cast<long>(few), order.end(),
        [&](std::size_t a, std::size_t b) { return std::tie(row[b], a) < std::tie(row[a], b); });
    std::vector<double> rest;
    for (std::size_t i = few; i < order.size(); ++i)
      rest.push_back(block.log[order[i]]);
    block.log_rest = log_sum(rest);
    order.resize(few);
    for (const std::size_t x : order)
      block.log_likeliest.push_back(block.log[x]);
    block.likeliest = std::move(order);
    all.push_back(std::move(block));
  }
  return all;
}

SmoothPiece::SmoothPiece(const std::vector<BlockPrior>& priors,
                         std::vector<BlockLikelihood>& likelihoods,
                         const std::vector<std::size_t>& active, Shift origin)
    : priors_(priors),
      likelihoods_(likelihoods),
      active_(active),
      origin_(std::move(origin)),
      parts_(priors.size()) {}

/// What a look at so many assignments keeps: constants, parts and rates, twice.
double SmoothPiece::numbers_of(std::size_t assignments) const {
  const double axes = static_cast<double>(active_.size());
  return 2 * static_cast<double>(assignments) * (1 + axes + 0.5 * axes * (axes + 1) + axes);
}

const Quadratics& SmoothPiece::whole(std::size_t block) {
  Quadratics& whole = parts_[block].whole;
  if (whole.count == 0) {
    whole = likelihoods_[block].quadratics(origin_, active_);
    numbers_ += numbers_of(whole.count);
  }
  return whole;
}

const BlockLook& SmoothPiece::few_look(std::size_t block, double& steps) {
  Part& part = parts_[block];
  if (!part.few_look) {
    const BlockPrior& prior = priors_[block];
    part.few = likelihoods_[block].quadratics(origin_, active_, prior.likeliest);
    part.few_look.emplace(part.few, prior.log_likeliest);
    steps += numbers_of(prior.likeliest.size());
    numbers_ += numbers_of(prior.likeliest.size());
  }
  return *part.few_look;
}

const BlockLook& SmoothPiece::whole_look(std::size_t block, double& steps) {
  Part& part = parts_[block];
  if (!part.whole_look) {
    part.whole_look.emplace(whole(block), priors_[block].log);
    steps += numbers_of(priors_[block].log.size());
  }
  return *part.whole_look;
}

double SmoothPiece::log_bound(const double* u, const double* half, const std::vector<double>& tails,
                              double enough, double& steps) {
  double most = tails.front(), least = tails.front();
  std::vector<std::size_t> rough;
  logs_.clear();
  for (std::size_t b = 0; b < parts_.size(); ++b) {
    const BlockPrior& prior = priors_[b];
    const double ceiling = tails[b] - tails[b + 1];
    const double others = most - ceiling;
    if (parts_[b].whole.count > 0 || prior.likeliest.size() == prior.log.size()) {
      logs_.push_back(whole_look(b, steps).log_bound(u, half, enough - others, steps));
      least += logs_[b] - ceiling;
    } else {
      const double likeliest = few_look(b, steps).log_bound(u, half, enough - others, steps);
      const double others_at_best = prior.log_rest + likelihoods_[b].log_ceiling();
      logs_.push_back(std::min(ceiling, log_add(likeliest, others_at_best)));
      least += likeliest - ceiling;
      rough.push_back(b);
    }
    most = others + logs_[b];
    if (most < enough) return most;
  }
  // The likeliest alone do not let this box be dropped.
  if (half != nullptr && least >= enough) return most;
  for (const std::size_t b : rough) {
    const double others = most - logs_[b];
    logs_[b] = whole_look(b, steps).log_bound(u, half, enough - others, steps);
    most = others + logs_[b];
    if (most < enough) return most;
  }
  return std::accumulate(logs_.begin(), logs_.end(), 0.0);
}

}  // namespace soot::infer
