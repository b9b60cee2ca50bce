#include "core/infer/interval.hpp"

#include <boost/math/quadrature/gauss.hpp>

#include <algorithm>
#include <cmath>

namespace soot::infer {

namespace {

const double sqrt_half = std::sqrt(0.5);

/// log P(N > x), x >= 0. Beyond 30 the asymptotic series; its last term there is below 1e-16.
double log_tail(double x) {
  if (x < 30) return std::log(0.5 * std::erfc(x * sqrt_half));
  if (std::isinf(x)) return -x;
  const double inverse = 1 / (x * x);
  double sum = 1;
  double term = 1;
  for (int k = 1; k <= 7; ++k) {
    term *= -(2 * k - 1) * inverse;
    sum += term;
  }
  return -0.5 * x * x - log_sqrt_two_pi - std::log(x) + std::log(sum);
}

/// By quadrature of the density: the difference of two tails would cancel in a narrow interval.
double log_narrow(double lower, double upper) {
  const double width = upper - lower;
  const double density = boost::math::quadrature::gauss<double, 15>::integrate(
      [lower, width](double u) {
        const double step = 0.5 * (u + 1) * width;
        return std::exp(-step * (lower + 0.5 * step));
      },
      -1.0, 1.0);
  return std::log(0.5 * width * density) - 0.5 * lower * lower - log_sqrt_two_pi;
}

}  // namespace

double log_interval(double lower, double upper) {
  if (upper <= 0) return log_interval(-upper, -lower);
  if (lower < 0) {
    if (upper - lower < 0.5) return log_narrow(lower, upper);
    return std::log(0.5 * (std::erf(upper * sqrt_half) + std::erf(-lower * sqrt_half)));
  }
  if (upper - lower < 0.5 && (upper - lower) * lower < 2) return log_narrow(lower, upper);
  const double near = log_tail(lower);
  return near + std::log1p(-std::exp(log_tail(upper) - near));
}

double interval(double lower, double upper) {
  return std::exp(log_interval(lower, upper));
}

}  // namespace soot::infer
