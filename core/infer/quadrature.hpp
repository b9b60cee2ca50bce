// Internal to core/infer. Points and weights along one direction.
//
// Straight response: the integrand is a sum of Gaussians in the engine-wide sum D, none narrower
// than tau. The trapezoid rule with step 0.8 tau has relative error below 2 exp(-2 pi^2/0.64) =
// 8e-14 for every one of them, so for every marginal (Trefethen and Weideman, SIAM Review 56 (2014)
// 385). Gauss-Hermite on the prior is up to 40 % off here: readings are far sharper than priors.
//
// Curved response (a table read linearly): the integrand has a kink at every point of the table,
// which the trapezoid rule would pay for with its whole accuracy. So Gauss-Legendre panels between
// the kinks, with as many points as the panel's width in tau asks for.
#pragma once

#include <cstddef>
#include <functional>
#include <limits>
#include <vector>

namespace soot::infer {

struct Axis {
  std::vector<double> at;
  std::vector<double> weight;
  double tau = 1;  ///< the smallest on it
  /// Index of the first point of each smooth piece.
  std::vector<std::size_t> pieces;
};

/// How fine: the full precision, or as coarse as the little at stake allows.
struct Precision {
  double step_in_tau = 0.8;
  /// Nodes below this log value (as a part of the whole) are left out, and those e^-depth below the
  /// best. e^-50 would do for the evidence, but not for the tenth digit of rare grades.
  double floor = -std::numeric_limits<double>::infinity();
  double depth = 80;

  /// Relative error along one axis, for each Gaussian the integrand is made of.
  double error() const;
};

/// The coarsest step that keeps the error of each of `axes` axes below `error` in all.
double step_for(double error, std::size_t axes);

Axis straight_axis(double from, double to, double tau, const Precision& precision);

/// `kinks` rising; tau_at(D) is the narrowest Gaussian at D, constant between kinks.
Axis curved_axis(double from, double to, const std::vector<double>& kinks,
                 const std::function<double(double)>& tau_at, const Precision& precision);

}  // namespace soot::infer
