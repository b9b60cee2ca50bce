#include "core/calc/uncertainty.hpp"

#include <cmath>
#include <numeric>

namespace soot::calc {

double combined(std::span<const Component> components) {
  double squares = 0;
  for (const Component& component : components)
    squares += component.standard * component.standard;
  return std::sqrt(squares);
}

double combined(std::span<const Component> components, Shared shared) {
  double squares = 0;
  for (const Component& component : components)
    if (component.shared == shared) squares += component.standard * component.standard;
  return std::sqrt(squares);
}

double expanded(std::span<const Component> components) {
  return 2 * combined(components);
}

double rectangular(double half_width) {
  return half_width / std::sqrt(3.0);
}

double triangular(double half_width) {
  return half_width / std::sqrt(6.0);
}

double resolution(double step) {
  return step / std::sqrt(12.0);
}

Repeats repeats(std::span<const double> values) {
  const double count = static_cast<double>(values.size());
  Repeats out;
  out.mean = std::accumulate(values.begin(), values.end(), 0.0) / count;
  if (values.size() < 2) return out;
  double squares = 0;
  for (const double value : values)
    squares += (value - out.mean) * (value - out.mean);
  out.deviation = std::sqrt(squares / (count - 1));
  out.of_mean = out.deviation / std::sqrt(count);
  return out;
}

}  // namespace soot::calc
