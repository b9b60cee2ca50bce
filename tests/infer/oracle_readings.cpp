#include "tests/infer/oracle_readings.hpp"

#include <Eigen/Dense>
#include <boost/math/quadrature/gauss.hpp>

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>

namespace soot::tests {

namespace {

using Real = long double;
using Matrix = Eigen::Matrix<Real, Eigen::Dynamic, Eigen::Dynamic>;
using Vector = Eigen::Matrix<Real, Eigen::Dynamic, 1>;
using Points = std::vector<std::pair<double, double>>;

Real integrate(const std::function<Real(Real)>& f, Real from, Real to, Real panel) {
  if (!(to > from)) return 0;
  const long count = std::max(1L, static_cast<long>(std::ceil((to - from) / panel)));
  Real sum = 0;
  for (long k = 0; k < count; ++k)
    sum += boost::math::quadrature::gauss<Real, 20>::integrate(
        f, from + (to - from) * k / count, from + (to - from) * (k + 1) / count);
  return sum;
}

Real upper_tail(Real x) {
  return 0.5L * std::erfc(x / std::sqrt(2.0L));
}

Real between(Real a, Real b) {
  if (b < 0) return between(-b, -a);
  if (a > 0) return upper_tail(a) - upper_tail(b);
  return 1 - upper_tail(-a) - upper_tail(b);
}

/// P(all numbers within bounds): the first one's density times the rest given it.
Real rectangle(const Vector& mean, const Matrix& covariance, const std::vector<Real>& lower,
               const std::vector<Real>& upper) {
  const Eigen::Index n = mean.size();
  if (n == 0) return 1;
  const Real sd = std::sqrt(covariance(0, 0));
  if (n == 1) return between((lower[0] - mean(0)) / sd, (upper[0] - mean(0)) / sd);
  const Matrix gain = covariance.bottomLeftCorner(n - 1, 1) / covariance(0, 0);
  const Matrix rest =
      covariance.bottomRightCorner(n - 1, n - 1) - gain * covariance.topRightCorner(1, n - 1);
  Real panel = 1.5L * sd;
  for (Eigen::Index i = 0; i < n - 1; ++i)
    if (gain(i, 0) != 0) panel = std::min(panel, 2 * std::sqrt(rest(i, i)) / std::abs(gain(i, 0)));
  const auto slice = [&](Real y) {
    const Real z = (y - mean(0)) / sd;
    const Vector moved = mean.tail(n - 1) + gain * (y - mean(0));
    return std::exp(-z * z / 2) / (sd * std::sqrt(2 * 3.14159265358979323846264L)) *
           rectangle(moved, rest, {lower.begin() + 1, lower.end()},
                     {upper.begin() + 1, upper.end()});
  };
  const Real low = std::max(lower[0], std::min(mean(0), upper[0]) - 40 * sd);
  const Real high = std::min(upper[0], std::max(mean(0), lower[0]) + 40 * sd);
  return integrate(slice, low, high, panel);
}

Real height(const infer::Curve& curve, Real x, Real& slope) {
  const Points& points = curve.points();
  if (points.empty()) {
    slope = curve.slope_at(0);
    return slope * x;
  }
  std::size_t piece = 0;
  while (piece + 2 < points.size() && x >= points[piece + 1].first)
    ++piece;
  const Real width = static_cast<Real>(points[piece + 1].first) - points[piece].first;
  slope = (static_cast<Real>(points[piece + 1].second) - points[piece].second) / width;
  return points[piece].second + slope * (x - points[piece].first);
}

class Readings {
 public:
  Readings(const infer::Network& network, const infer::Evidence& evidence,
           const std::vector<OracleInstance>& instances, const std::vector<std::size_t>& grades,
           std::optional<std::size_t> fault)
      : network_(network),
        evidence_(evidence),
        instances_(instances),
        grades_(grades),
        fault_(fault),
        common_(network.terms.size(), 0),
        variance_(network.terms.size(), 0),
        curved_(network.terms.size(), false),
        fixed_(network.terms.size(), false) {
    for (std::size_t i = 0; i < instances.size(); ++i) {
      if (grades[i] == 0 || instances[i].cylinder != 0) continue;
      for (const infer::Effect& effect : network.causes[instances[i].cause].effects) {
        const Real sd = effect.sd[grades[i] - 1];
        common_[effect.term] += effect.mean[grades[i] - 1];
        variance_[effect.term] += sd * sd;
      }
    }
    for (const infer::Quantity& quantity : network.quantities)
      for (const infer::Response& response : quantity.responses)
        if (!response.shift.points().empty()) curved_[response.term] = true;
  }

  Real density() { return over_terms(0); }

 private:
  /// Integrates the sum of each curved term; the straight ones stay in the covariance.
  Real over_terms(std::size_t term) {
    while (term < curved_.size() && !(curved_[term] && variance_[term] > 0))
      ++term;
    if (term == curved_.size()) return gaussian();
    const Real mean = common_[term];
    const Real sd = std::sqrt(variance_[term]);
    fixed_[term] = true;
    const auto at = [&](Real x) {
      common_[term] = x;
      const Real z = (x - mean) / sd;
      return std::exp(-z * z / 2) / (sd * std::sqrt(2 * 3.14159265358979323846264L)) *
             over_terms(term + 1);
    };
    std::vector<Real> ends{mean - 14 * sd, mean + 14 * sd};
    for (const infer::Quantity& quantity : network_.quantities)
      for (const infer::Response& response : quantity.responses)
        if (response.term == term)
          for (const auto& point : response.shift.points())
            if (point.first > ends[0] && point.first < ends[1]) ends.push_back(point.first);
    std::sort(ends.begin(), ends.end());
    Real sum = 0;
    for (std::size_t i = 0; i + 1 < ends.size(); ++i)
      sum += integrate(at, ends[i], ends[i + 1], std::min(sd, sharpness(term)));
    common_[term] = mean;
    fixed_[term] = false;
    return sum;
  }

  /// Width in the term's unit over which the sharpest reading changes.
  Real sharpness(std::size_t term) const {
    Real precision = 0;
    for (const infer::Reading& reading : evidence_.readings)
      for (const infer::Response& response : network_.quantities[reading.quantity].responses)
        if (response.term == term) {
          Real steepest = 0, slope = 0;
          height(response.shift, 0, slope);
          steepest = std::abs(slope);
          for (const auto& point : response.shift.points()) {
            height(response.shift, point.first, slope);
            steepest = std::max(steepest, std::abs(slope));
          }
          precision += steepest * steepest / (static_cast<Real>(reading.sd) * reading.sd);
        }
    return 2 / std::sqrt(precision + 1e-30L);
  }

  static bool heard(const infer::Reading& reading, int cylinder) {
    return reading.cylinder == 0 || cylinder == 0 || reading.cylinder == cylinder;
  }

  Real slope(const infer::Reading& reading, std::size_t term) const {
    Real result = 0;
    for (const infer::Response& response : network_.quantities[reading.quantity].responses)
      if (response.term == term) height(response.shift, common_[term], result);
    return result;
  }

  Real mean_of(const infer::Reading& reading) const {
    const infer::Quantity& quantity = network_.quantities[reading.quantity];
    Real mean = static_cast<Real>(quantity.nominal) + reading.shift;
    for (const infer::Response& response : quantity.responses) {
      Real unused = 0;
      mean += height(response.shift, common_[response.term], unused);
    }
    for (std::size_t i = 0; i < instances_.size(); ++i)
      if (grades_[i] > 0 && instances_[i].cylinder > 0 && heard(reading, instances_[i].cylinder))
        for (const infer::Effect& effect : network_.causes[instances_[i].cause].effects)
          mean += effect.mean[grades_[i] - 1] * slope(reading, effect.term);
    if (fault_ && network_.instrument_faults[*fault_].quantity == reading.quantity)
      mean += network_.instrument_faults[*fault_].mean;
    return mean;
  }

  Real covariance_of(std::size_t a, std::size_t b) const {
    const infer::Reading& one = evidence_.readings[a];
    const infer::Reading& two = evidence_.readings[b];
    Real sum = a == b ? static_cast<Real>(one.sd) * one.sd : 0;
    if (one.quantity == two.quantity && one.cylinder == two.cylinder) {
      const Real spread = network_.quantities[one.quantity].spread;
      sum += spread * spread;
    }
    for (std::size_t i = 0; i < instances_.size(); ++i) {
      if (grades_[i] == 0) continue;
      for (const infer::Effect& effect : network_.causes[instances_[i].cause].effects) {
        const Real both = slope(one, effect.term) * slope(two, effect.term);
        const Real sd = effect.sd[grades_[i] - 1];
        if (instances_[i].cylinder == 0) {
          if (!fixed_[effect.term]) sum += sd * sd * both;
          if (!effect.scatter.empty() && one.cylinder > 0 && one.cylinder == two.cylinder) {
            const Real scatter = effect.scatter[grades_[i] - 1];
            sum += scatter * scatter * both;
          }
        } else if (heard(one, instances_[i].cylinder) && heard(two, instances_[i].cylinder)) {
          sum += sd * sd * both;
        }
      }
    }
    if (fault_) {
      const infer::InstrumentFault& fault = network_.instrument_faults[*fault_];
      if (fault.quantity == one.quantity && fault.quantity == two.quantity)
        sum += static_cast<Real>(fault.sd) * fault.sd;
    }
    return sum;
  }

  Real gaussian() const {
    std::vector<std::size_t> order;
    for (const bool exact : {true, false})
      for (std::size_t r = 0; r < evidence_.readings.size(); ++r)
        if (evidence_.readings[r].is_exact() == exact) order.push_back(r);
    const auto n = static_cast<Eigen::Index>(order.size());
    Eigen::Index m = 0;
    Vector mean(n), value(n);
    Matrix covariance(n, n);
    std::vector<Real> lower, upper;
    for (Eigen::Index i = 0; i < n; ++i) {
      const infer::Reading& reading = evidence_.readings[order[static_cast<std::size_t>(i)]];
      mean(i) = mean_of(reading);
      value(i) = reading.lower;
      if (reading.is_exact()) {
        ++m;
      } else {
        lower.push_back(reading.lower);
        upper.push_back(reading.upper);
      }
      for (Eigen::Index j = 0; j < n; ++j)
        covariance(i, j) =
            covariance_of(order[static_cast<std::size_t>(i)], order[static_cast<std::size_t>(j)]);
    }
    if (m == 0) return rectangle(mean, covariance, lower, upper);
    const Eigen::LLT<Matrix> factor(covariance.topLeftCorner(m, m));
    const Vector white = factor.matrixL().solve(value.head(m) - mean.head(m));
    Real log = -white.squaredNorm() / 2;
    for (Eigen::Index i = 0; i < m; ++i)
      log -= std::log(factor.matrixLLT()(i, i)) + std::log(2 * 3.14159265358979323846264L) / 2;
    if (m == n) return std::exp(log);
    const Matrix gain =
        covariance.bottomLeftCorner(n - m, m) * factor.solve(Matrix::Identity(m, m));
    const Vector given = mean.tail(n - m) + gain * (value.head(m) - mean.head(m));
    const Matrix rest =
        covariance.bottomRightCorner(n - m, n - m) - gain * covariance.topRightCorner(m, n - m);
    return std::exp(log) * rectangle(given, rest, lower, upper);
  }

  const infer::Network& network_;
  const infer::Evidence& evidence_;
  const std::vector<OracleInstance>& instances_;
  const std::vector<std::size_t>& grades_;
  std::optional<std::size_t> fault_;
  std::vector<Real> common_, variance_;
  std::vector<bool> curved_, fixed_;
};

}  // namespace

long double oracle_reading_density(const infer::Network& network, const infer::Evidence& evidence,
                                   const std::vector<OracleInstance>& instances,
                                   const std::vector<std::size_t>& grades,
                                   std::optional<std::size_t> fault) {
  if (evidence.readings.empty()) return 1;
  return Readings(network, evidence, instances, grades, fault).density();
}

}  // namespace soot::tests
