#include "core/calc/propagate.hpp"

#include <cmath>

namespace soot::calc {

Estimate propagate(std::span<const Estimate> inputs, const Formula& formula) {
  std::vector<double> at;
  for (const Estimate& input : inputs)
    at.push_back(input.value);
  Estimate out{formula(at), 0};
  double squares = 0;
  for (std::size_t i = 0; i < inputs.size(); ++i) {
    const double step = inputs[i].standard;
    if (step == 0) continue;
    at[i] = inputs[i].value + step;
    const double above = formula(at);
    at[i] = inputs[i].value - step;
    const double below = formula(at);
    at[i] = inputs[i].value;
    double share = (above - below) / 2;
    if (!std::isfinite(above)) share = out.value - below;
    if (!std::isfinite(below)) share = above - out.value;
    squares += share * share;
  }
  out.standard = std::sqrt(squares);
  return out;
}

}  // namespace soot::calc
