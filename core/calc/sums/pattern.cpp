#include "core/calc/sums/pattern.hpp"

namespace soot::calc {
namespace {

void add(Worksheet& sheet, std::string_view quantity, std::string_view what,
         std::optional<double> figure, double shift, Dimension dimension, int decimals) {
  std::string name = fmt::format("{}{}, {}", quantity, figure ? "" : " changes by", what);
  sheet.result(std::move(name), figure.value_or(0) + shift, model_unit(dimension), decimals);
}

}  // namespace

void add_pattern(Worksheet& sheet, const Family& family, const Flank& flank, double late_deg,
                 std::string_view what) {
  const bool has_depth = family.has("lifters") || family.figure("lifter-depth");
  const std::string_view each = family.cylinders > 1 ? " of every cylinder" : "";
  if (has_depth)
    add(sheet, fmt::format("depth{}", each), what, family.nominal("lifter-depth"),
        flank.depth_shift_mm(late_deg), Dimension::length, 2);
  add(sheet, fmt::format("spill{}", each), what, family.nominal("static-timing"), -late_deg,
      Dimension::angle, 1);
}

std::string shift_words(const Flank& flank, double late_deg) {
  return fmt::format("depth {:+.2f} mm, spill {:+.1f} deg", flank.depth_shift_mm(late_deg),
                     -late_deg);
}

}  // namespace soot::calc
