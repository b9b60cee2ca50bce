#include "core/infer/curve.hpp"

#include <algorithm>
#include <cmath>

namespace soot::infer {

Curve::Curve(std::vector<std::pair<double, double>> points) : points_(std::move(points)) {
  for (std::size_t i = 1; i < points_.size(); ++i) {
    const double slope =
        (points_[i].second - points_[i - 1].second) / (points_[i].first - points_[i - 1].first);
    steepest_ = std::max(steepest_, std::abs(slope));
  }
}

std::size_t Curve::piece(double magnitude) const {
  const auto after =
      std::upper_bound(points_.begin() + 1, points_.end() - 1, magnitude,
                       [](double value, const auto& point) { return value < point.first; });
  return static_cast<std::size_t>(after - points_.begin()) - 1;
}

double Curve::slope_at(double magnitude) const {
  if (is_straight()) return slope_;
  const auto& from = points_[piece(magnitude)];
  const auto& to = points_[piece(magnitude) + 1];
  return (to.second - from.second) / (to.first - from.first);
}

double Curve::at(double magnitude) const {
  if (is_straight()) return slope_ * magnitude;
  const auto& from = points_[piece(magnitude)];
  return from.second + slope_at(magnitude) * (magnitude - from.first);
}

}  // namespace soot::infer
