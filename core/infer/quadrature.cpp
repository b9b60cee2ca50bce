#include "core/infer/quadrature.hpp"

#include <boost/math/special_functions/legendre.hpp>

#include <algorithm>
#include <cmath>

namespace soot::infer {

namespace {

constexpr double widest_panel_in_tau = 3;
constexpr int most_points = 16;
constexpr double two_pi_squared = 19.739208802178717;

/// Points of Gauss-Legendre for a Gaussian on a panel of `width` of its standard deviations: from
/// the remainder term, with the greatest 2n-th derivative of the Gaussian.
int points_needed(double width, double error) {
  double bound = 1;
  for (int n = 1; n < most_points; ++n) {
    // bound = width^2n (n!)^3 / (2^n ((2n)!)^2), grown from n - 1 to n
    const double double_factor = (2.0 * n) * (2.0 * n - 1);
    bound *= width * width * n * n * n / (2 * double_factor * double_factor);
    if (bound / (2 * n + 1) < 0.1 * error) return n;
  }
  return most_points;
}

using Rule = std::vector<std::pair<double, double>>;  ///< points and weights on [-1, 1]

const Rule& legendre(int points) {
  static const std::vector<Rule> rules = [] {
    std::vector<Rule> all(most_points + 1);
    for (int n = 1; n <= most_points; ++n) {
      std::vector<double> roots;
      for (const double root : boost::math::legendre_p_zeros<double>(n)) {
        roots.push_back(root);
        if (root > 0) roots.push_back(-root);
      }
      std::sort(roots.begin(), roots.end());
      for (const double root : roots) {
        const double prime = boost::math::legendre_p_prime<double>(n, root);
        all[static_cast<std::size_t>(n)].emplace_back(root,
                                                      2 / ((1 - root * root) * prime * prime));
      }
    }
    return all;
  }();
  return rules[static_cast<std::size_t>(points)];
}

void add_panel(Axis& axis, double from, double to, int points) {
  const double middle = 0.5 * (from + to);
  const double half = 0.5 * (to - from);
  for (const auto& [root, weight] : legendre(points)) {
    axis.at.push_back(middle + half * root);
    axis.weight.push_back(half * weight);
  }
}

}  // namespace

double Precision::error() const {
  return 2 * std::exp(-two_pi_squared / (step_in_tau * step_in_tau));
}

double step_for(double error, std::size_t axes) {
  constexpr double finest = 0.8, coarsest = 2.0;
  const double each = error / (4 * static_cast<double>(axes));
  if (!(each > 1e-300)) return finest;
  if (each >= 1) return coarsest;
  return std::clamp(std::sqrt(two_pi_squared / -std::log(each)), finest, coarsest);
}

Axis straight_axis(double from, double to, double tau, const Precision& precision) {
  Axis axis;
  axis.tau = tau;
  axis.pieces = {0};
  const double step = precision.step_in_tau * tau;
  const double last = std::ceil(to / step);
  for (double k = std::floor(from / step); k <= last; ++k) {
    axis.at.push_back(k * step);
    axis.weight.push_back(step);
  }
  return axis;
}

Axis curved_axis(double from, double to, const std::vector<double>& kinks,
                 const std::function<double(double)>& tau_at, const Precision& precision) {
  std::vector<double> ends{from};
  for (const double kink : kinks)
    if (kink > from && kink < to) ends.push_back(kink);
  ends.push_back(to);
  Axis axis;
  axis.tau = tau_at(0.5 * (ends[0] + ends[1]));
  for (std::size_t piece = 0; piece + 1 < ends.size(); ++piece) {
    const double width = ends[piece + 1] - ends[piece];
    if (width <= 0) continue;
    axis.pieces.push_back(axis.at.size());
    const double tau = tau_at(0.5 * (ends[piece] + ends[piece + 1]));
    axis.tau = std::min(axis.tau, tau);
    const double panels = std::ceil(width / (widest_panel_in_tau * tau));
    const int points = points_needed(width / panels / tau, precision.error());
    for (double k = 0; k < panels; ++k)
      add_panel(axis, ends[piece] + width * k / panels, ends[piece] + width * (k + 1) / panels,
                points);
  }
  return axis;
}

}  // namespace soot::infer
