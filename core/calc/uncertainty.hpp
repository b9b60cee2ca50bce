// Uncertainty by the book: components as standard uncertainties in the unit of the result, combined
// in squares, doubled for a statement that holds about nineteen times in twenty.
//
// Source: JCGM 100:2008 (GUM), 4.2 (repeats), 4.3.7 (rectangular), 4.3.9 (triangular), F.2.2.1
// (resolution), 5.1.2 (combination), 6.2 (k = 2).
#pragma once

#include <span>
#include <string>
#include <vector>

namespace soot::calc {

/// Which readings a component is common to. What all cylinders share cancels in their differences.
enum class Shared { reading, cylinder, engine };

struct Component {
  std::string name;
  double standard = 0;  ///< in the result's unit, sensitivity folded in, >= 0
  Shared shared = Shared::reading;
};

/// Square root of the sum of squares; components are independent.
double combined(std::span<const Component> components);

/// The same of those alone that are shared so far and no further.
double combined(std::span<const Component> components, Shared shared);

/// 2 x combined.
double expanded(std::span<const Component> components);

/// Anything from -half to +half, equally likely.
double rectangular(double half_width);
/// From -half to +half, the middle likeliest.
double triangular(double half_width);
/// Reading to the nearest step.
double resolution(double step);

/// Repeated readings: mean, standard deviation of one, standard uncertainty of the mean.
struct Repeats {
  double mean = 0;
  double deviation = 0;  ///< 0 for a single reading
  double of_mean = 0;
};

/// At least one value.
Repeats repeats(std::span<const double> values);

}  // namespace soot::calc
