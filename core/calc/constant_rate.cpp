#include "core/calc/constant_rate.hpp"

#include <algorithm>

namespace soot::calc {

double ConstantRate::on_line_mm(double crank_deg) const {
  return shape_.closing_lift_mm +
         shape_.rate_mm_per_deg * (crank_deg + shape_.closing_before_top_deg);
}

double ConstantRate::lift_mm(double crank_deg) const {
  return std::clamp(on_line_mm(crank_deg), 0.0, shape_.total_mm);
}

std::optional<double> ConstantRate::angle_deg(double lift_mm) const {
  if (!(lift_mm > 0 && lift_mm < shape_.total_mm)) return std::nullopt;
  return (lift_mm - shape_.closing_lift_mm) / shape_.rate_mm_per_deg -
         shape_.closing_before_top_deg;
}

double ConstantRate::rate_mm_per_deg(double crank_deg) const {
  const double lift_mm = on_line_mm(crank_deg);
  return lift_mm > 0 && lift_mm < shape_.total_mm ? shape_.rate_mm_per_deg : 0;
}

}  // namespace soot::calc
