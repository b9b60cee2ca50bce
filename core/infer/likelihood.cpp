#include "core/infer/likelihood.hpp"

#include <Eigen/Cholesky>

#include <algorithm>
#include <cmath>

namespace soot::infer {

namespace {
const double log_sqrt_two_pi = 0.91893853320467274178;
constexpr std::size_t most_known = 256;
using Index = Eigen::Index;
Index at(std::size_t i) {
  return static_cast<Index>(i);
}
}  // namespace

BlockLikelihood::BlockLikelihood(const Network& network, const Instances& instances,
                                 const Evidence& evidence, const Directions& directions,
                                 const Block& block)
    : network_(network),
      instances_(instances),
      evidence_(evidence),
      directions_(directions),
      block_(block),
      grades_(network, instances, block.instances),
      readings_(block.readings) {
  slopes_.resize(readings_.size());
  matters_.assign(network.terms.size(), false);
  for (const std::size_t own : block.instances)
    for (const Effect& effect : network.causes[instances[own].cause].effects)
      matters_[effect.term] = true;
  const auto bounds = std::stable_partition(readings_.begin(), readings_.end(), [&](std::size_t r) {
    return evidence.readings[r].is_exact();
  });
  exact_ = static_cast<std::size_t>(bounds - readings_.begin());
  for (std::size_t i = exact_; i < readings_.size(); ++i) {
    const Reading& reading = evidence.readings[readings_[i]];
    const auto twins = std::count_if(readings_.begin(), readings_.end(), [&](std::size_t r) {
      return evidence.readings[r].quantity == reading.quantity &&
             evidence.readings[r].cylinder == reading.cylinder;
    });
    const double spread = twins > 1 ? 0 : network.quantities[reading.quantity].spread;
    own_variance_.push_back(reading.sd * reading.sd + spread * spread);
  }
}

double BlockLikelihood::slope(std::size_t reading, std::size_t term, const Shift& shift) const {
  for (const Response& response :
       network_.quantities[evidence_.readings[reading].quantity].responses) {
    if (response.term != term) continue;
    const auto& share = directions_.of_term[term];
    return response.shift.slope_at(
        share && !response.shift.is_straight() ? shift.at[share->direction] : 0);
  }
  return 0;
}

double BlockLikelihood::common_mean(std::size_t reading, const Shift& shift) const {
  const Reading& r = evidence_.readings[reading];
  const Quantity& quantity = network_.quantities[r.quantity];
  double mean = quantity.nominal + r.shift;
  for (std::size_t d = 0; d < directions_.all.size(); ++d)
    if (directions_.all[d].shift[r.quantity])
      mean += directions_.all[d].shift[r.quantity]->at(shift.at[d]);
  for (const Response& response : quantity.responses)
    if (!directions_.of_term[response.term] && !response.shift.is_straight())
      mean += response.shift.at(0);
  return mean;
}

/// Covariance of the readings with every own cause sound.
Eigen::MatrixXd BlockLikelihood::sound_covariance(const Shift& shift) const {
  const std::size_t n = readings_.size();
  Eigen::MatrixXd covariance = Eigen::MatrixXd::Zero(at(n), at(n));
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t j = 0; j <= i; ++j) {
      const Reading& a = evidence_.readings[readings_[i]];
      const Reading& b = evidence_.readings[readings_[j]];
      double sum = 0;
      if (a.quantity == b.quantity && a.cylinder == b.cylinder) {
        const double spread = network_.quantities[a.quantity].spread;
        sum += spread * spread;
      }
      if (i == j) sum += a.sd * a.sd;
      for (std::size_t d = 0; d < directions_.all.size(); ++d)
        if (shift.variance[d] > 0)
          sum += shift.variance[d] * directions_.all[d].slope(a.quantity, 0) *
                 directions_.all[d].slope(b.quantity, 0);
      if (a.cylinder > 0 && a.cylinder == b.cylinder)
        for (std::size_t term = 0; term < shift.scatter.size(); ++term)
          sum += shift.scatter[term] * slopes_[i][term] * slopes_[j][term];
      covariance(at(i), at(j)) = covariance(at(j), at(i)) = sum;
    }
  }
  return covariance;
}

/// One row a reading, one column a direction: slopes, of curves the steepest, without sign.
Eigen::MatrixXd BlockLikelihood::steepest_slopes() const {
  Eigen::MatrixXd steep = Eigen::MatrixXd::Zero(at(readings_.size()), at(directions_.all.size()));
  for (std::size_t i = 0; i < readings_.size(); ++i)
    for (std::size_t d = 0; d < directions_.all.size(); ++d)
      steep(at(i), at(d)) = directions_.all[d].steepest(evidence_.readings[readings_[i]].quantity);
  return steep;
}

Eigen::VectorXd BlockLikelihood::straight_slopes(Eigen::Index direction) const {
  Eigen::VectorXd slopes(at(readings_.size()));
  for (std::size_t i = 0; i < readings_.size(); ++i)
    slopes(at(i)) = directions_.all[static_cast<std::size_t>(direction)].slope(
        evidence_.readings[readings_[i]].quantity, 0);
  return slopes;
}

void BlockLikelihood::add_factor(std::size_t assignment, const Eigen::MatrixXd& sound) {
  const std::size_t n = readings_.size();
  std::vector<double> mean(n, 0.0);
  Eigen::MatrixXd covariance = sound;
  for (std::size_t own = 0; own < block_.instances.size(); ++own) {
    const std::size_t grade = grades_.of(assignment, own);
    if (grade == 0) continue;
    const InstanceKey& key = instances_[block_.instances[own]];
    for (const Effect& effect : network_.causes[key.cause].effects) {
      const double sd = effect.sd[grade - 1];
      for (std::size_t i = 0; i < n; ++i) {
        if (!hears(evidence_.readings[readings_[i]].cylinder, key)) continue;
        mean[i] += effect.mean[grade - 1] * slopes_[i][effect.term];
        for (std::size_t j = 0; j < n; ++j)
          if (hears(evidence_.readings[readings_[j]].cylinder, key))
            covariance(at(i), at(j)) += sd * sd * slopes_[i][effect.term] * slopes_[j][effect.term];
      }
    }
  }
  const Index m = at(exact_);
  const Index k = at(n) - m;
  const Eigen::MatrixXd lower = covariance.topLeftCorner(m, m).llt().matrixL();
  const Eigen::MatrixXd inverse =
      lower.triangularView<Eigen::Lower>().solve(Eigen::MatrixXd::Identity(m, m));
  double log_norm = 0;
  for (Index i = 0; i < m; ++i)
    log_norm -= std::log(lower(i, i)) + log_sqrt_two_pi;
  std::size_t row = 0;
  coefficient(row++)[assignment] = log_norm;
  for (Index i = 0; i < m; ++i) {
    double own = 0;
    for (Index j = 0; j <= i; ++j) {
      coefficient(row++)[assignment] = inverse(i, j);
      own += inverse(i, j) * mean[static_cast<std::size_t>(j)];
    }
    coefficient(row++)[assignment] = own;
  }
  const Eigen::MatrixXd steep = steepest_slopes();
  const Eigen::MatrixXd moved = inverse.cwiseAbs() * steep.topRows(m);
  for (Index d = 0; d < steep.cols(); ++d)
    coefficient(row++)[assignment] = directions_.all[static_cast<std::size_t>(d)].straight
                                         ? (inverse * straight_slopes(d).head(m)).norm()
                                         : moved.col(d).norm();
  if (k == 0) return;
  const Eigen::MatrixXd gain = covariance.bottomLeftCorner(k, m) * inverse.transpose();
  const Eigen::MatrixXd reach = steep.bottomRows(k) + gain.cwiseAbs() * moved;
  std::vector<double> gains;
  for (Index i = 0; i < k; ++i)
    for (Index j = 0; j < m; ++j)
      gains.push_back(gain(i, j));
  Eigen::MatrixXd shared = covariance.bottomRightCorner(k, k);
  for (Index i = 0; i < k; ++i)
    shared(i, i) -= own_variance_[static_cast<std::size_t>(i)];
  factors_->bounds.push_back({{mean.begin() + m, mean.end()},
                              std::move(gains),
                              Censored(shared - gain * gain.transpose(), own_variance_),
                              {}});
  for (Index i = 0; i < k; ++i)
    for (Index d = 0; d < reach.cols(); ++d)
      factors_->bounds.back().reach.push_back(reach(i, d));
  censored_depth_ = std::max(censored_depth_, factors_->bounds.back().censored.shared());
}

void BlockLikelihood::rebuild(const Shift& shift) {
  const std::size_t terms = network_.terms.size();
  std::vector<double> signature = shift.variance;
  signature.insert(signature.end(), shift.scatter.begin(), shift.scatter.end());
  for (std::size_t i = 0; i < readings_.size(); ++i) {
    slopes_[i].assign(terms, 0.0);
    for (std::size_t term = 0; term < terms; ++term) {
      if (!matters_[term] && shift.scatter[term] == 0) continue;
      slopes_[i][term] = slope(readings_[i], term, shift);
      signature.push_back(slopes_[i][term]);
    }
  }
  if (known_.size() > most_known) known_.clear();
  const auto [place, is_new] = known_.try_emplace(std::move(signature));
  factors_ = &place->second;
  if (!is_new) return;
  const Eigen::MatrixXd sound = sound_covariance(shift);
  const std::size_t rows = 1 + exact_ * (exact_ + 3) / 2 + directions_.all.size();
  factors_->rows.assign(rows * grades_.total(), 0.0);
  for (std::size_t x = 0; x < grades_.total(); ++x)
    add_factor(x, sound);
}

void BlockLikelihood::log_bound(const Shift& shift, const std::vector<double>& half,
                                std::vector<double>& out) {
  rebuild(shift);
  const std::size_t count = grades_.total();
  off_.resize(readings_.size());
  for (std::size_t i = 0; i < readings_.size(); ++i)
    off_[i] = (i < exact_ ? evidence_.readings[readings_[i]].lower : 0) -
              common_mean(readings_[i], shift);
  white_.assign(exact_ * count, 0.0);
  sum_.assign(count, 0.0);
  out.resize(count);
  double* squares = sum_.data();
  std::size_t row = 1;
  for (std::size_t i = 0; i < exact_; ++i) {
    double* white = white_.data() + i * count;
    for (std::size_t j = 0; j <= i; ++j) {
      const double* inverse = coefficient(row++);
      for (std::size_t x = 0; x < count; ++x)
        white[x] += inverse[x] * off_[j];
    }
    const double* own = coefficient(row++);
    for (std::size_t x = 0; x < count; ++x) {
      white[x] -= own[x];
      squares[x] += white[x] * white[x];
    }
  }
  if (!half.empty()) {
    for (std::size_t x = 0; x < count; ++x)
      squares[x] = std::sqrt(squares[x]);
    for (std::size_t d = 0; d < half.size(); ++d) {
      const double* reach = coefficient(row++);
      for (std::size_t x = 0; x < count; ++x)
        squares[x] -= reach[x] * half[d];
    }
    for (std::size_t x = 0; x < count; ++x)
      squares[x] = squares[x] > 0 ? squares[x] * squares[x] : 0;
  }
  const double* log_norm = coefficient(0);
  for (std::size_t x = 0; x < count; ++x)
    out[x] = log_norm[x] - 0.5 * squares[x];
  if (!factors_->bounds.empty()) add_bounds(out, half);
}

void BlockLikelihood::log_ceiling(const Shift& shift, std::vector<double>& out) {
  rebuild(shift);
  out.assign(coefficient(0), coefficient(0) + grades_.total());
}

void BlockLikelihood::add_bounds(std::vector<double>& out, const std::vector<double>& half) const {
  const std::size_t count = out.size();
  std::vector<double> lower(readings_.size() - exact_);
  std::vector<double> upper(lower.size());
  for (std::size_t x = 0; x < count; ++x) {
    const Bounds& bounds = factors_->bounds[x];
    for (std::size_t i = 0; i < lower.size(); ++i) {
      const Reading& reading = evidence_.readings[readings_[exact_ + i]];
      double mean = bounds.mean[i] - off_[exact_ + i];
      for (std::size_t j = 0; j < exact_; ++j)
        mean += bounds.gain[i * exact_ + j] * white_[j * count + x];
      lower[i] = reading.lower - mean;
      upper[i] = reading.upper - mean;
      for (std::size_t d = 0; d < half.size(); ++d) {
        lower[i] -= bounds.reach[i * half.size() + d] * half[d];
        upper[i] += bounds.reach[i * half.size() + d] * half[d];
      }
    }
    out[x] += bounds.censored.log_probability(lower, upper);
  }
}

}  // namespace soot::infer
