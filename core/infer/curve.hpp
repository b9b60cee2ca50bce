// How the sum of one term's magnitudes moves one quantity. A plain slope, or a table where one rate
// does not hold (a cam's lift against degrees late: a tooth out is far outside the range where one
// rate does). The table is read linearly between its points and goes on past its ends with the
// slope of the last piece; whoever makes one puts its points close enough for his purpose.
#pragma once

#include <cstddef>
#include <utility>
#include <vector>

namespace soot::infer {

class Curve {
 public:
  Curve() = default;
  explicit Curve(double slope) : slope_(slope), steepest_(slope < 0 ? -slope : slope) {}
  /// Points (magnitude, shift), magnitudes strictly rising, at least two.
  explicit Curve(std::vector<std::pair<double, double>> points);

  bool is_straight() const { return points_.empty(); }
  /// Shift of the quantity, in its unit, at a magnitude in the term's unit.
  double at(double magnitude) const;
  /// d(shift)/d(magnitude) of the piece that holds `magnitude`.
  double slope_at(double magnitude) const;
  /// Largest slope anywhere, without its sign.
  double steepest() const { return steepest_; }
  const std::vector<std::pair<double, double>>& points() const { return points_; }

 private:
  std::size_t piece(double magnitude) const;

  double slope_ = 0;
  double steepest_ = 0;
  std::vector<std::pair<double, double>> points_;
};

}  // namespace soot::infer
