#include "core/infer/likelihood.hpp"

#include "core/infer/interval.hpp"

#include <Eigen/Cholesky>

#include <algorithm>
#include <cmath>
#include <numeric>

namespace soot::infer {

namespace {

/// Place of (i, j), j <= i, in a packed lower triangle.
std::size_t packed(std::size_t i, std::size_t j) {
  return i * (i + 1) / 2 + j;
}

/// to += a b, to -= a b: over all assignments at once.
SOOT_VECTOR_CLONES
void add_product(std::vector<double>& to, const std::vector<double>& a,
                 const std::vector<double>& b) {
  for (std::size_t x = 0; x < to.size(); ++x)
    to[x] += a[x] * b[x];
}
SOOT_VECTOR_CLONES
void take_product(std::vector<double>& to, const std::vector<double>& a,
                  const std::vector<double>& b) {
  for (std::size_t x = 0; x < to.size(); ++x)
    to[x] -= a[x] * b[x];
}
SOOT_VECTOR_CLONES
void divide(std::vector<double>& to, const std::vector<double>& by) {
  for (std::size_t x = 0; x < to.size(); ++x)
    to[x] /= by[x];
}

/// Lower factor in place of the first `n` rows of a packed covariance.
void factorise(std::vector<std::vector<double>>& c, std::size_t n) {
  for (std::size_t j = 0; j < n; ++j) {
    std::vector<double>& corner = c[packed(j, j)];
    for (std::size_t k = 0; k < j; ++k)
      take_product(corner, c[packed(j, k)], c[packed(j, k)]);
    for (double& one : corner)
      one = std::sqrt(one);
    for (std::size_t i = j + 1; i < n; ++i) {
      std::vector<double>& entry = c[packed(i, j)];
      for (std::size_t k = 0; k < j; ++k)
        take_product(entry, c[packed(i, k)], c[packed(j, k)]);
      divide(entry, corner);
    }
  }
}

/// rows := factor^-1 rows
void whiten(const std::vector<std::vector<double>>& factor, std::vector<std::vector<double>>& rows,
            std::size_t n) {
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t k = 0; k < i; ++k)
      take_product(rows[i], factor[packed(i, k)], rows[k]);
    divide(rows[i], factor[packed(i, i)]);
  }
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
      all_(Grades(network, instances, block.instances).total()),
      readings_(block.readings) {
  std::iota(all_.begin(), all_.end(), std::size_t{0});
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
  // Every cause and every scatter only adds to the covariance, and so lowers the peak. Repeats have
  // been merged: two exact readings share no spread.
  for (std::size_t i = 0; i < exact_; ++i) {
    const Reading& reading = evidence.readings[readings_[i]];
    const double spread = network.quantities[reading.quantity].spread;
    log_ceiling_ -= log_sqrt_two_pi + std::log(std::hypot(reading.sd, spread));
  }
}

/// n bounds share at most n - 1 numbers (`Censored`); each takes some 60 terms.
double BlockLikelihood::bound_steps() const {
  if (!has_bounds()) return 0;
  return 50 * std::pow(60.0, static_cast<double>(readings_.size() - exact_ - 1));
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

/// With every own cause sound.
double BlockLikelihood::sound_covariance(std::size_t i, std::size_t j, const Shift& shift,
                                         const Rows& slopes) const {
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
      if (shift.scatter[term] > 0) sum += shift.scatter[term] * slopes[i][term] * slopes[j][term];
  return sum;
}

/// Grows the rows from one assignment to all, cause by cause (the last one's grade runs fastest).
BlockLikelihood::Own BlockLikelihood::own_at(Rows slopes) const {
  const std::size_t n = readings_.size();
  const auto grow = [](std::vector<double>& row, const std::vector<double>& added) {
    std::vector<double> grown;
    grown.reserve(row.size() * added.size());
    for (const double one : row)
      for (const double more : added)
        grown.push_back(one + more);
    row = std::move(grown);
  };
  Rows mean(n, {0.0});
  Rows covariance(packed(n, 0), {0.0});
  std::vector<double> added;
  for (const std::size_t own : block_.instances) {
    const InstanceKey& key = instances_[own];
    const Cause& cause = network_.causes[key.cause];
    const auto hears_it = [&](std::size_t i) {
      return hears(evidence_.readings[readings_[i]].cylinder, key);
    };
    for (std::size_t i = 0; i < n; ++i) {
      added.assign(cause.grades + 1, 0.0);
      for (const Effect& effect : cause.effects)
        for (std::size_t g = 0; hears_it(i) && g < cause.grades; ++g)
          added[g + 1] += effect.mean[g] * slopes[i][effect.term];
      grow(mean[i], added);
      for (std::size_t j = 0; j <= i; ++j) {
        added.assign(cause.grades + 1, 0.0);
        for (const Effect& effect : cause.effects)
          for (std::size_t g = 0; hears_it(i) && hears_it(j) && g < cause.grades; ++g)
            added[g + 1] +=
                effect.sd[g] * effect.sd[g] * slopes[i][effect.term] * slopes[j][effect.term];
        grow(covariance[packed(i, j)], added);
      }
    }
  }
  return {std::move(slopes), std::move(mean), std::move(covariance)};
}

/// Parts the whitened residuals into what lies along the slopes (orthogonalised one after another)
/// and the rest, whose square is the constant.
void BlockLikelihood::project(Rows& white, std::vector<Rows>& tilt, Quadratics& out) const {
  const std::size_t count = out.count;
  const std::size_t active = out.active;
  for (std::size_t k = 0; k < active; ++k) {
    std::vector<double> length(count, 0.0);
    for (std::size_t i = 0; i < exact_; ++i)
      add_product(length, tilt[k][i], tilt[k][i]);
    for (double& one : length)
      one = std::sqrt(one);
    for (std::size_t i = 0; i < exact_; ++i)
      for (std::size_t x = 0; x < count; ++x)
        tilt[k][i][x] = length[x] > 0 ? tilt[k][i][x] / length[x] : 0;
    const auto part = [&](Rows& rows) {
      std::vector<double> along(count, 0.0);
      for (std::size_t i = 0; i < exact_; ++i)
        add_product(along, tilt[k][i], rows[i]);
      for (std::size_t i = 0; i < exact_; ++i)
        take_product(rows[i], tilt[k][i], along);
      return along;
    };
    out.along.push_back(part(white));
    out.rate.push_back(std::move(length));
    for (std::size_t j = k + 1; j < active; ++j)
      out.rate.push_back(part(tilt[j]));
  }
  for (std::size_t i = 0; i < exact_; ++i)
    for (std::size_t x = 0; x < count; ++x)
      out.constant[x] -= 0.5 * white[i][x] * white[i][x];
  for (std::size_t j = 0; j < active; ++j) {
    std::vector<double> squares(count, 0.0);
    std::size_t row = 0;
    for (std::size_t k = 0; k <= j; row += active - k, ++k)
      add_product(squares, out.rate[row + j - k], out.rate[row + j - k]);
    for (double& one : squares)
      one = std::sqrt(one);
    out.reach.push_back(std::move(squares));
  }
}

Quadratics BlockLikelihood::quadratics(const Shift& origin, const std::vector<std::size_t>& active,
                                       const std::vector<std::size_t>& which) {
  const std::size_t n = readings_.size();
  Quadratics out;
  out.count = which.size();
  out.active = active.size();
  Rows slopes(n, std::vector<double>(network_.terms.size(), 0.0));
  std::vector<bool> matters(network_.terms.size());
  for (std::size_t term = 0; term < matters.size(); ++term)
    matters[term] = origin.scatter[term] > 0;
  for (const std::size_t own : block_.instances)
    for (const Effect& effect : network_.causes[instances_[own].cause].effects)
      matters[effect.term] = true;
  for (std::size_t i = 0; i < n; ++i)
    for (std::size_t term = 0; term < matters.size(); ++term)
      if (matters[term]) slopes[i][term] = slope(readings_[i], term, origin);

  if (!own_ || slopes != own_->slopes)
    own_ = std::make_shared<const Own>(own_at(std::move(slopes)));
  const auto picked = [&](const std::vector<double>& row, double added) {
    std::vector<double> result(which.size());
    for (std::size_t x = 0; x < which.size(); ++x)
      result[x] = row[which[x]] + added;
    return result;
  };
  Rows mean, covariance;
  for (std::size_t i = 0; i < n; ++i) {
    mean.push_back(picked(own_->mean[i], 0));
    for (std::size_t j = 0; j <= i; ++j)
      covariance.push_back(
          picked(own_->covariance[packed(i, j)], sound_covariance(i, j, origin, own_->slopes)));
  }

  Rows factor(covariance.begin(), covariance.begin() + static_cast<long>(packed(exact_, 0)));
  factorise(factor, exact_);
  out.constant.assign(out.count, 1.0);
  for (std::size_t i = 0; i < exact_; ++i)
    for (std::size_t x = 0; x < out.count; ++x)
      out.constant[x] *= factor[packed(i, i)][x];
  for (double& one : out.constant)
    one = -std::log(one) - static_cast<double>(exact_) * log_sqrt_two_pi;

  Rows white(exact_);
  for (std::size_t i = 0; i < exact_; ++i) {
    const double off = evidence_.readings[readings_[i]].lower - common_mean(readings_[i], origin);
    white[i].resize(out.count);
    for (std::size_t x = 0; x < out.count; ++x)
      white[i][x] = off - mean[i][x];
  }
  whiten(factor, white, exact_);
  std::vector<Rows> tilt(active.size(), Rows(exact_));
  for (std::size_t k = 0; k < active.size(); ++k) {
    for (std::size_t i = 0; i < exact_; ++i) {
      const std::size_t quantity = evidence_.readings[readings_[i]].quantity;
      const double slope = directions_.all[active[k]].slope(quantity, origin.at[active[k]]);
      tilt[k][i].assign(out.count, slope);
    }
    whiten(factor, tilt[k], exact_);
  }
  if (has_bounds()) add_bounds(origin, mean, covariance, factor, white, tilt, active, out);
  project(white, tilt, out);
  return out;
}

void BlockLikelihood::add_bounds(const Shift& origin, const Rows& mean, const Rows& covariance,
                                 const Rows& factor, const Rows& white,
                                 const std::vector<Rows>& tilt,
                                 const std::vector<std::size_t>& active, Quadratics& out) const {
  using Eigen::Index;
  const std::size_t m = exact_;
  const std::size_t bounds = readings_.size() - m;
  const std::size_t d = active.size();
  out.bound_steps = bound_steps();
  for (std::size_t b = 0; b < bounds; ++b) {
    const Reading& reading = evidence_.readings[readings_[m + b]];
    out.lower.push_back(reading.lower);
    out.upper.push_back(reading.upper);
    for (const std::size_t direction : active)
      out.bound_slopes.push_back(
          directions_.all[direction].slope(reading.quantity, origin.at[direction]));
  }
  for (std::size_t x = 0; x < out.count; ++x) {
    // gain = covariance of bound and exact, times the factor's inverse turned
    Eigen::MatrixXd gain(static_cast<Index>(bounds), static_cast<Index>(m));
    Eigen::MatrixXd shared(static_cast<Index>(bounds), static_cast<Index>(bounds));
    std::vector<double> at, gains, whites, tilts, reach;
    for (std::size_t b = 0; b < bounds; ++b) {
      at.push_back(common_mean(readings_[m + b], origin) + mean[m + b][x]);
      for (std::size_t i = 0; i < m; ++i) {
        double sum = covariance[packed(m + b, i)][x];
        for (std::size_t k = 0; k < i; ++k)
          sum -= factor[packed(i, k)][x] * gain(static_cast<Index>(b), static_cast<Index>(k));
        gain(static_cast<Index>(b), static_cast<Index>(i)) = sum / factor[packed(i, i)][x];
        gains.push_back(gain(static_cast<Index>(b), static_cast<Index>(i)));
      }
      for (std::size_t c = 0; c <= b; ++c)
        shared(static_cast<Index>(b), static_cast<Index>(c)) = shared(
            static_cast<Index>(c), static_cast<Index>(b)) = covariance[packed(m + b, m + c)][x];
      shared(static_cast<Index>(b), static_cast<Index>(b)) -= own_variance_[b];
    }
    for (std::size_t i = 0; i < m; ++i) {
      whites.push_back(white[i][x]);
      for (std::size_t j = 0; j < d; ++j)
        tilts.push_back(tilt[j][i][x]);
    }
    for (std::size_t b = 0; b < bounds; ++b)
      for (std::size_t j = 0; j < d; ++j) {
        double slope = out.bound_slopes[b * d + j];
        for (std::size_t i = 0; i < m; ++i)
          slope -= gains[b * m + i] * tilts[i * d + j];
        reach.push_back(std::abs(slope));
      }
    out.bounds.push_back({std::move(at), std::move(gains), std::move(whites), std::move(tilts),
                          std::move(reach),
                          Censored(shared - gain * gain.transpose(), own_variance_)});
  }
}

}  // namespace soot::infer
