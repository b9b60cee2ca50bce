#include "core/infer/grid.hpp"

#include "core/infer/sieve.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <set>

namespace soot::infer {

namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();
const double log_sqrt_two_pi = 0.91893853320467274178;
const Precision full{};
/// From coarse to fine, where the full precision is dear.
const Precision coarse[] = {{1.5, 34}, {1.1, 50}};
/// The same where an error is tolerated; for a line the last of them.
const Precision brisk[] = {{3.0, 22}, {2.0, 24}, {1.4, 26}, {1.0, 28}};
/// Evaluations (nodes times assignments) that a regime may always have for the full precision.
constexpr double affordable = 1 << 17;
/// Error, as a share of the evidence, that a regime may leave where it is looked at coarsely.
constexpr double always_tolerated = 1e-11;

/// Along direction d, the precision that the readings give at D: none of them can give more.
double reading_precision(const NodeInput& input, std::size_t d, double at) {
  std::map<std::pair<std::size_t, int>, double> instruments;
  for (const Block& block : input.group.blocks)
    for (const std::size_t r : block.readings) {
      const Reading& reading = input.evidence.readings[r];
      instruments[{reading.quantity, reading.cylinder}] += 1 / (reading.sd * reading.sd);
    }
  double precision = 0;
  for (const auto& [key, sum] : instruments) {
    const double slope = input.directions.all[d].slope(key.first, at);
    const double spread = input.network.quantities[key.first].spread;
    precision += slope * slope / (spread * spread + 1 / sum);
  }
  return precision;
}

std::vector<double> kinks_of(const Direction& direction) {
  std::set<double> kinks;
  for (const auto& curve : direction.shift)
    if (curve)
      for (const auto& point : curve->points())
        kinks.insert(point.first);
  return {kinks.begin(), kinks.end()};
}

class RegimeNodes {
 public:
  RegimeNodes(const NodeInput& input, std::vector<BlockLikelihood>& likelihoods, Regime& regime,
              Whole& whole, double& budget)
      : input_(input), likelihoods_(likelihoods), regime_(regime), whole_(whole), budget_(budget) {
    const CommonState& first = state(0);
    base_.at = first.mean;
    base_.scatter = first.scatter;
    base_.variance.assign(first.mean.size(), 0.0);
    for (std::size_t d = 0; d < first.mean.size(); ++d) {
      if (is_point(input, first, d))
        base_.variance[d] = first.variance[d];
      else
        active_.push_back(d);
    }
    for (const std::vector<double>& prior : input.prior) {
      assignments_ += static_cast<double>(prior.size());
      log_prior_of_.emplace_back();
      for (const double one : prior)
        log_prior_of_.back().push_back(std::log(one));
    }
    bool uneven = false;  // a covariance that changes along a curve has no one ceiling
    for (const std::size_t d : active_)
      uneven = uneven || input.directions.all[d].uneven;
    for (std::size_t b = 0; b < likelihoods.size(); ++b) {
      likelihoods[b].log_ceiling(base_, logs_);
      add_priors(b);
      ceilings_.push_back(uneven ? infinity : log_sum(logs_));
    }
  }

  /// False if the budget ran out.
  bool lay() {
    if (active_.empty()) {
      const double value = log_bound(base_, {}, -infinity);
      whole_.best = std::max(whole_.best, value);
      whole_.add(value);
      add(base_, 0);
      return true;
    }
    if (is_negligible()) return true;
    const Precision precision = choose();
    if (!look(precision)) return false;
    for (const auto& [place, value] : sieved_.kept) {
      double log_weight = 0;
      for (std::size_t a = 0; a < axes_.size(); ++a)
        log_weight += std::log(axes_[a].weight[place[a]]);
      add(shift_at(place), log_weight);
    }
    whole_.best = sieved_.best;
    const double log_here = log_mass();
    whole_.add(log_here);
    regime_.error = error_of(precision, log_here);
    return true;
  }

 private:
  const CommonState& state(std::size_t i) const { return input_.states[regime_.states[i]]; }

  // Whatever the shift, a regime has no more of the evidence than its prior times what its blocks
  // can give at best.
  bool is_negligible() {
    if (!(input_.tolerated > 0) || whole_.log_mass == -infinity) return false;
    logs_.clear();
    for (const std::size_t s : regime_.states)
      logs_.push_back(input_.log_prior[s]);
    const double bound =
        std::accumulate(ceilings_.begin(), ceilings_.end(), log_sum(logs_)) - whole_.log_mass;
    if (bound > std::log(input_.tolerated)) return false;
    whole_.dropped += std::exp(bound);
    return true;
  }

  /// As a share of the evidence; `here` is the log of the regime's own part of it.
  double error_of(const Precision& precision, double here) const {
    const double rule =
        (std::pow(3.0, static_cast<double>(active_.size())) - 1) / 2 * precision.error();
    // Cut off: less than as many nodes again, each below e^-depth of the best.
    const double cut = static_cast<double>(sieved_.kept.size()) * std::exp(-precision.depth);
    return std::exp(here - whole_.log_mass) * rule + cut;
  }

  Precision choose() {
    if (input_.tolerated > 0) return choose_brisk();
    if (active_.size() < 2) return full;
    for (const Precision& precision : coarse) {
      if (!look(precision)) return precision;  // the caller finds the budget gone
      const double dimensions = static_cast<double>(active_.size());
      // Finer steps and a deeper cut: about 2.7 times the nodes a direction.
      const double nodes =
          std::max(static_cast<double>(sieved_.kept.size()), 0.5 * std::pow(8.0, dimensions)) *
          std::pow(2.7, dimensions);
      if (nodes * assignments_ < affordable) return full;
      if (error_of(precision, log_mass()) < always_tolerated) return precision;
    }
    return full;
  }

  Precision choose_brisk() {
    for (const Precision& precision : brisk) {
      const bool is_last = &precision == std::end(brisk) - 1;
      if (active_.size() < 2 && !is_last) continue;
      if (!look(precision) || error_of(precision, log_mass()) < input_.tolerated) return precision;
    }
    return full;
  }

  /// Fills sieved_; looks further out while nodes are kept at the end of an axis.
  bool look(const Precision& precision) {
    std::vector<double> reach(active_.size(), 25.0);  // in standard deviations of the magnitudes
    for (int round = 0; round < 12; ++round) {
      if (!make_axes(reach, precision)) return false;
      double cell = 0;  // regimes of different dimensions are compared by the mass of a cell
      for (const Axis& axis : axes_)
        cell += std::log(axis.tau);
      sieved_ = sieve(
          axes_, precision.depth, whole_.best,
          [&](const Place& middle, const std::vector<double>& half, double cut) {
            return cell + log_bound(shift_at(middle), half, cut - cell);
          },
          budget_);
      if (sieved_.exhausted) return false;
      if (!grow(reach)) return true;
    }
    return true;
  }

  double log_mass() const {
    double sum = 0;
    for (const auto& [place, value] : sieved_.kept) {
      double weight = 1;
      for (std::size_t a = 0; a < axes_.size(); ++a)
        weight *= axes_[a].weight[place[a]] / axes_[a].tau;
      sum += weight * std::exp(value - sieved_.best);
    }
    return sieved_.best + std::log(sum);
  }

  /// Greatest within `half` (one an active direction; empty: none).
  double log_density_of(std::size_t i, const Shift& shift, const std::vector<double>& half) const {
    double sum = 0;
    for (std::size_t a = 0; a < active_.size(); ++a) {
      const double variance = state(i).variance[active_[a]];
      double off = std::abs(shift.at[active_[a]] - state(i).mean[active_[a]]);
      if (!half.empty()) off = std::max(0.0, off - half[a]);
      sum -= 0.5 * off * off / variance + 0.5 * std::log(variance) + log_sqrt_two_pi;
    }
    return sum;
  }

  void add(const Shift& shift, double log_weight) {
    regime_.nodes.push_back(shift);
    std::vector<double> row;
    for (std::size_t i = 0; i < regime_.states.size(); ++i)
      row.push_back(log_weight + log_density_of(i, shift, {}));
    regime_.log_weight.push_back(std::move(row));
  }

  bool make_axes(const std::vector<double>& reach, const Precision& precision) {
    axes_.clear();
    for (std::size_t a = 0; a < active_.size(); ++a) {
      const std::size_t d = active_[a];
      double least = infinity, greatest = 0, from = infinity, to = -infinity;
      for (std::size_t i = 0; i < regime_.states.size(); ++i) {
        const double variance = state(i).variance[d];
        least = std::min(least, variance);
        greatest = std::max(greatest, variance);
        from = std::min(from, state(i).mean[d]);
        to = std::max(to, state(i).mean[d]);
      }
      from -= reach[a] * std::sqrt(greatest);
      to += reach[a] * std::sqrt(greatest);
      const auto tau_at = [&](double at) { return narrowest(input_, d, least, at); };
      if ((to - from) / tau_at(0.5 * (from + to)) > budget_) return false;
      const Direction& direction = input_.directions.all[d];
      axes_.push_back(direction.straight
                          ? straight_axis(from, to, tau_at(0), precision)
                          : curved_axis(from, to, kinks_of(direction), tau_at, precision));
      budget_ -= static_cast<double>(axes_.back().at.size());
    }
    return budget_ > 0;
  }

  Shift shift_at(const Place& place) const {
    Shift shift = base_;
    for (std::size_t a = 0; a < axes_.size(); ++a)
      shift.at[active_[a]] = axes_[a].at[place[a]];
    return shift;
  }

  /// Log of the sum over the states and assignments with their greatest priors, or a bound of it
  /// over a box; `half` one an active direction. Given up once it is sure to lie below `cut`.
  double log_bound(const Shift& shift, const std::vector<double>& half, double cut) {
    budget_ -= 8 * assignments_;
    logs_.clear();
    for (std::size_t i = 0; i < regime_.states.size(); ++i)
      logs_.push_back(input_.log_prior[regime_.states[i]] + log_density_of(i, shift, half));
    double bound = log_sum(logs_);
    std::vector<double> half_of(half.empty() ? 0 : base_.at.size(), 0.0);
    for (std::size_t a = 0; a < half.size(); ++a)
      half_of[active_[a]] = half[a];
    for (std::size_t b = 0; b < likelihoods_.size(); ++b) {
      const double ceiling =
          std::accumulate(ceilings_.begin() + static_cast<std::ptrdiff_t>(b), ceilings_.end(), 0.0);
      if (bound + ceiling < cut) return bound + ceiling;
      likelihoods_[b].log_bound(shift, half_of, logs_);
      add_priors(b);
      bound += log_sum(logs_);
    }
    return bound;
  }

  void add_priors(std::size_t block) {
    for (std::size_t x = 0; x < logs_.size(); ++x)
      logs_[x] += log_prior_of_[block][x];
  }

  /// Terms e^-40 below the greatest are left out: this only chooses nodes.
  static double log_sum(const std::vector<double>& logs) {
    const double top = *std::max_element(logs.begin(), logs.end());
    if (top == -infinity) return top;
    double sum = 0;
    for (const double one : logs)
      if (one > top - 40) sum += std::exp(one - top);
    return top + std::log(sum);
  }

  /// A node kept at the end of an axis: the readings point outside.
  bool grow(std::vector<double>& reach) const {
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

  const NodeInput& input_;
  std::vector<BlockLikelihood>& likelihoods_;
  Regime& regime_;
  Whole& whole_;
  double& budget_;
  double assignments_ = 0;
  Shift base_;
  std::vector<std::size_t> active_;
  std::vector<Axis> axes_;
  Sieved sieved_;
  std::vector<std::vector<double>> log_prior_of_;  ///< as NodeInput::prior
  std::vector<double> ceilings_;                   ///< one a block: no shift can give it more
  std::vector<double> logs_;
};

}  // namespace

void Whole::add(double log_part) {
  const double top = std::max(log_mass, log_part);
  if (top > -infinity)
    log_mass = top + std::log(std::exp(log_mass - top) + std::exp(log_part - top));
}

bool is_point(const NodeInput& input, const CommonState& state, std::size_t d) {
  return state.variance[d] == 0 || input.directions.all[d].closed;
}

double narrowest(const NodeInput& input, std::size_t d, double variance, double at) {
  return 1 / std::sqrt(1 / variance + reading_precision(input, d, at));
}

bool lay_regime(const NodeInput& input, std::vector<BlockLikelihood>& likelihoods, Regime& regime,
                Whole& whole, double& budget) {
  return RegimeNodes(input, likelihoods, regime, whole, budget).lay();
}

}  // namespace soot::infer
