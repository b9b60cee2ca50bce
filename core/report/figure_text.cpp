#include "core/report/figure_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace soot {
namespace {

constexpr int most_decimals = 4;

int decimals_of(double value) {
  for (int decimals = 0; decimals < most_decimals; ++decimals) {
    const double scaled = value * std::pow(10, decimals);
    if (std::abs(scaled - std::round(scaled)) < 1e-6) return decimals;
  }
  return most_decimals;
}

// Those written; of a figure made by hand as many as the finest of its numbers has.
int decimals_of(const Figure& figure) {
  if (figure.step > 0)
    return std::max(0,
                    static_cast<int>(std::lround(-std::log10(figure.step / figure.unit.factor))));
  int most = 0;
  for (const auto& number : {figure.value, figure.low, figure.high, figure.least, figure.most})
    if (number)
      most = std::max(most, decimals_of((*number - figure.unit.offset) / figure.unit.factor));
  if (figure.tolerance) most = std::max(most, decimals_of(*figure.tolerance / figure.unit.factor));
  return most;
}

std::string number(double model_value, const Figure& figure) {
  const double value = (model_value - figure.unit.offset) / figure.unit.factor;
  return fmt::format("{:.{}f}", value, decimals_of(figure));
}

}  // namespace

std::string print_figure(const Figure& figure) {
  const std::string unit = figure.unit.name.empty() ? "" : fmt::format(" {}", figure.unit.name);
  std::string out;
  if (figure.value) {
    out = number(*figure.value, figure) + unit;
    if (figure.tolerance) out += " +/- " + number(*figure.tolerance + figure.unit.offset, figure);
  } else if (figure.low && figure.high) {
    out = number(*figure.low, figure) + " to " + number(*figure.high, figure) + unit;
  }
  const auto add = [&](std::string_view word, const std::optional<double>& limit) {
    if (!limit) return;
    const bool has_unit = !out.empty();
    out += fmt::format("{}{} {}{}", has_unit ? ", " : "", word, number(*limit, figure),
                       has_unit ? "" : unit);
  };
  add("least", figure.least);
  add("most", figure.most);
  return out;
}

}  // namespace soot
