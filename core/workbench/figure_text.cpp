#include "core/workbench/figure_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <vector>

namespace soot {
namespace {

constexpr int most_places = 4;

int places_of(double value) {
  for (int places = 0; places < most_places; ++places) {
    const double scaled = value * std::pow(10, places);
    if (std::abs(scaled - std::round(scaled)) < 1e-6) return places;
  }
  return most_places;
}

class FigureText {
 public:
  explicit FigureText(const Figure& figure) : figure_(figure) {
    for (const auto& value : {figure.value, figure.low, figure.high, figure.least, figure.most})
      if (value) places_ = std::max(places_, places_of(in_unit(*value)));
    if (figure.tolerance)
      places_ = std::max(places_, places_of(*figure.tolerance / figure.unit.factor));
  }

  std::string write() {
    if (figure_.value) {
      out_ = with_unit(number(in_unit(*figure_.value)));
      if (figure_.tolerance) out_ += " +/- " + number(*figure_.tolerance / figure_.unit.factor);
    } else if (figure_.low && figure_.high) {
      out_ = with_unit(number(in_unit(*figure_.low)) + " to " + number(in_unit(*figure_.high)));
    }
    add("least", figure_.least);
    add("most", figure_.most);
    return out_;
  }

 private:
  double in_unit(double model_value) const {
    return (model_value - figure_.unit.offset) / figure_.unit.factor;
  }

  std::string number(double value) const { return fmt::format("{:.{}f}", value, places_); }

  std::string with_unit(std::string text) {
    if (has_unit_ || figure_.unit.name.empty()) return text;
    has_unit_ = true;
    return fmt::format("{} {}", text, figure_.unit.name);
  }

  void add(std::string_view word, const std::optional<double>& limit) {
    if (!limit) return;
    if (!out_.empty()) out_ += ", ";
    out_ += fmt::format("{} {}", word, with_unit(number(in_unit(*limit))));
  }

  const Figure& figure_;
  int places_ = 0;
  bool has_unit_ = false;
  std::string out_;
};

}  // namespace

std::string print_figure(const Figure& figure) {
  return FigureText{figure}.write();
}

}  // namespace soot
