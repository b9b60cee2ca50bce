#include "core/infer/regime_grid.hpp"

#include "core/infer/shares.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <set>

namespace soot::infer {

namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();
constexpr double steps_a_number = 8;
/// All pieces of a regime together: 128 MB.
constexpr double most_piece_numbers = 1 << 24;
constexpr double first_reach = 16;  // in standard deviations of the magnitudes
constexpr int most_growths = 12;

std::vector<double> kinks_of(const Direction& direction) {
  std::set<double> kinks;
  for (const auto& curve : direction.shift)
    if (curve)
      for (const auto& point : curve->points())
        kinks.insert(point.first);
  return {kinks.begin(), kinks.end()};
}

std::size_t piece_on(const Axis& axis, std::size_t at) {
  return static_cast<std::size_t>(std::upper_bound(axis.pieces.begin(), axis.pieces.end(), at) -
                                  axis.pieces.begin() - 1);
}

}  // namespace

bool is_point(const Directions& directions, const CommonState& state, std::size_t d) {
  return state.variance[d] == 0 || directions.all[d].closed;
}

double narrowest(const Directions& directions, const ReadingPrecision& readings, std::size_t d,
                 double variance, double at) {
  double precision = 1 / variance;
  for (const auto& [quantity, one] : readings) {
    const double slope = directions.all[d].slope(quantity, at);
    precision += slope * slope * one;
  }
  return 1 / std::sqrt(precision);
}

RegimeGrid::RegimeGrid(const NodeInput& input, const ReadingPrecision& readings,
                       const std::vector<BlockPrior>& priors,
                       const std::vector<CommonState>& states, const std::vector<double>& log_prior,
                       double harmless)
    : input_(input), readings_(readings), states_(states), priors_(priors) {
  const CommonState& first = states.front();
  base_.at = first.mean;
  base_.scatter = first.scatter;
  base_.variance.assign(first.mean.size(), 0.0);
  for (std::size_t d = 0; d < first.mean.size(); ++d) {
    if (is_point(input.directions, first, d)) {
      base_.variance[d] = first.variance[d];
    } else {
      active_.push_back(d);
      straight_ = straight_ && input.directions.all[d].straight;
    }
  }
  state_look_.emplace(states, log_prior, active_);
  std::vector<double> logs = log_prior;
  log_ceiling_ = log_sum(logs);
  for (const BlockLikelihood& likelihood : input.likelihoods) {
    tails_.push_back(likelihood.log_ceiling());
    log_ceiling_ += tails_.back();
  }
  if (straight_) {
    look_ahead(harmless);
    measure(harmless);
  }
  tails_.push_back(0);
  for (std::size_t b = tails_.size() - 1; b-- > 0;)
    tails_[b] += tails_[b + 1];
}

/// `logs`: of a block's parts at most; used up.
void RegimeGrid::lower_tail(std::size_t block, std::vector<double>& logs) {
  const double less = std::min(0.0, log_sum(logs) - tails_[block]);
  tails_[block] += less;
  log_ceiling_ += less;
}

/// What each block can say at most, were its unlikely grades to fit perfectly.
void RegimeGrid::look_ahead(double harmless) {
  for (std::size_t b = 0; b < tails_.size() && log_ceiling_ >= harmless; ++b) {
    const BlockPrior& prior = priors_[b];
    if (prior.likeliest.size() == prior.log.size()) continue;
    logs_ = input_.likelihoods[b].quadratics(base_, active_, prior.likeliest).constant;
    for (std::size_t i = 0; i < logs_.size(); ++i)
      logs_[i] += prior.log_likeliest[i];
    logs_.push_back(prior.log_rest + tails_[b]);
    lower_tail(b, logs_);
  }
}

/// The one piece of straight directions, block by block: what each can say at most.
void RegimeGrid::measure(double harmless) {
  SmoothPiece& only =
      pieces_
          .emplace(Place(active_.size()), SmoothPiece(priors_, input_.likelihoods, active_, base_))
          .first->second;
  for (std::size_t b = 0; b < tails_.size() && log_ceiling_ >= harmless; ++b) {
    logs_ = only.whole(b).constant;
    for (std::size_t x = 0; x < logs_.size(); ++x)
      logs_[x] += priors_[b].log[x];
    lower_tail(b, logs_);
  }
  numbers_ = only.numbers();
}

SmoothPiece& RegimeGrid::piece_of(const Place& place) {
  Place key;
  for (std::size_t a = 0; a < axes_.size(); ++a)
    key.push_back(piece_on(axes_[a], place[a]));
  if (const auto known = pieces_.find(key); known != pieces_.end()) return known->second;
  Shift origin = base_;
  for (std::size_t a = 0; a < axes_.size(); ++a) {
    const Axis& axis = axes_[a];
    const std::size_t last =
        key[a] + 1 < axis.pieces.size() ? axis.pieces[key[a] + 1] - 1 : axis.at.size() - 1;
    origin.at[active_[a]] = 0.5 * (axis.at[axis.pieces[key[a]]] + axis.at[last]);
  }
  return pieces_
      .emplace(std::move(key), SmoothPiece(priors_, input_.likelihoods, active_, std::move(origin)))
      .first->second;
}

RegimeGrid::Node RegimeGrid::node(const Place& place) const {
  Node node;
  for (std::size_t a = 0; a < axes_.size(); ++a) {
    node.at.push_back(axes_[a].at[place[a]]);
    node.log_weight += std::log(axes_[a].weight[place[a]]);
  }
  return node;
}

bool RegimeGrid::look(const Precision& precision, double best, double& budget) {
  std::vector<double> reach(active_.size(), first_reach);
  for (int round = 0; round < most_growths; ++round) {
    if (!make_axes(reach, precision, budget)) return false;
    cell_ = 0;
    for (const Axis& axis : axes_)
      cell_ += std::log(axis.tau * precision.step_in_tau);
    sieved_ = sieve(
        axes_, precision, best,
        [&](const Place& middle, const PerAxis<double>& half, double cut) {
          return log_bound(middle, half, cut, budget);
        },
        budget);
    if (sieved_.exhausted) return false;
    if (!grow(reach)) return true;
  }
  return true;
}

bool RegimeGrid::make_axes(const std::vector<double>& reach, const Precision& precision,
                           double budget) {
  axes_.clear();
  double points = 1;
  for (std::size_t a = 0; a < active_.size(); ++a) {
    const std::size_t d = active_[a];
    double least = infinity, greatest = 0, from = infinity, to = -infinity;
    for (const CommonState& state : states_) {
      const double variance = state.variance[d];
      least = std::min(least, variance);
      greatest = std::max(greatest, variance);
      from = std::min(from, state.mean[d]);
      to = std::max(to, state.mean[d]);
    }
    from -= reach[a] * std::sqrt(greatest);
    to += reach[a] * std::sqrt(greatest);
    const auto tau_at = [&](double at) {
      return narrowest(input_.directions, readings_, d, least, at);
    };
    points += (to - from) / tau_at(0.5 * (from + to));
    if (points > budget) return false;
    const Direction& direction = input_.directions.all[d];
    axes_.push_back(direction.straight
                        ? straight_axis(from, to, tau_at(0), precision)
                        : curved_axis(from, to, kinks_of(direction), tau_at, precision));
  }
  if (!straight_) {
    pieces_.clear();
    numbers_ = 0;
  }
  return true;
}

double RegimeGrid::log_bound(const Place& middle, const PerAxis<double>& half, double cut,
                             double& budget) {
  bool single = true;
  for (const double one : half)
    single = single && one == 0;
  const double* reach = single ? nullptr : half.data();
  PerAxis<double> at;
  for (std::size_t a = 0; a < axes_.size(); ++a)
    at.push_back(axes_[a].at[middle[a]]);
  double steps = 0;
  const double others = cell_ + tails_.front();
  double bound = cell_ + state_look_->log_bound(at.data(), reach, cut - others, steps);
  if (bound + tails_.front() < cut) return bound + tails_.front();  // before a piece is made for it
  SmoothPiece& piece = piece_of(middle);
  PerAxis<double> u;
  for (std::size_t a = 0; a < at.size(); ++a)
    u.push_back(at[a] - piece.origin().at[active_[a]]);
  numbers_ -= piece.numbers();
  bound += piece.log_bound(u.data(), reach, tails_, cut - bound, steps);
  numbers_ += piece.numbers();
  budget = numbers_ > most_piece_numbers ? -1 : budget - steps_a_number * steps;
  return bound;
}

std::vector<double> RegimeGrid::log_masses() const {
  std::vector<double> masses;
  for (const auto& [place, value] : sieved_.kept)
    masses.push_back(value - cell_ + node(place).log_weight);
  return masses;
}

double RegimeGrid::trim(double harmless, double log_share) {
  if (sieved_.kept.empty()) return nothing;
  const std::vector<double> masses = log_masses();
  std::vector<double> all = masses;
  const double share = log_sum(all) + log_share;
  all = masses;
  const auto [least, dropped] = tail_of(all, std::max(harmless, share));
  std::size_t stay = 0;
  for (std::size_t i = 0; i < masses.size(); ++i)
    if (masses[i] >= least) std::swap(sieved_.kept[stay++], sieved_.kept[i]);
  sieved_.kept.resize(stay);
  return dropped;
}

/// A node kept at the end of an axis: the readings point outside.
bool RegimeGrid::grow(std::vector<double>& reach) const {
  bool grown = false;
  for (std::size_t a = 0; a < axes_.size(); ++a)
    for (const auto& [place, value] : sieved_.kept)
      if (place[a] == 0 || place[a] + 1 == axes_[a].at.size()) {
        reach[a] *= 2;
        grown = true;
        break;
      }
  return grown;
}

}  // namespace soot::infer
