#include "core/calc/crank.hpp"
#include "core/calc/sums/forms.hpp"
#include "core/calc/worksheet.hpp"

#include <array>
#include <cmath>
#include <limits>

namespace soot::calc {
namespace {

constexpr double dial_step_mm = 0.01;

Result<Sum> drop(const SumForm& form, const Ask& ask) {
  Worksheet sheet{form, ask,
                  "piston position: Heywood (1988) eq. 2.4-2.6, as quoted by others; uncertainty: "
                  "JCGM 100:2008"};
  const Given below = sheet.needed("below");
  const CrankGear gear{sheet.needed("stroke").value, sheet.needed("rod").value};
  if (!(gear.stroke_mm > 0 && gear.rod_mm > gear.stroke_mm / 2))
    return fail(Kind::use,
                "a stroke of {:g} mm with a rod of {:g} (expected a rod longer than half "
                "the stroke)",
                gear.stroke_mm, gear.rod_mm);
  if (!(below.value > 0 && below.value < gear.stroke_mm))
    return fail(Kind::use, "piston {} below the top (expected above 0 and below the stroke)",
                print_in(below.value, below.unit, length_decimals(below.unit)));
  Sum& sum = sheet.sum;
  sum.formula = {
      "piston below the top = a + l - a cos(angle) - sqrt(l^2 - a^2 sin^2(angle)), a half the "
      "stroke, l the rod; the angle is found backwards"};
  const std::array in{estimate(below)};
  const Estimate angle = propagate(in, [&](auto at) {
    return angle_of_drop_deg(gear, at[0]).value_or(std::numeric_limits<double>::quiet_NaN());
  });
  sum.lines.push_back(fmt::format("{} below the top = {:.1f} deg from it",
                                  print_in(below.value, below.unit, length_decimals(below.unit)),
                                  angle.value));
  sheet.result("angle from top", angle, model_unit(Dimension::angle), 1);
  const double hidden = dwell_deg(gear, dial_step_mm);
  sum.lines.push_back(fmt::format("at the top {:.2f} mm of dial hides {:.2f} deg either way",
                                  dial_step_mm, hidden));
  sheet.result("hidden at the top", hidden, model_unit(Dimension::angle), 2);
  sheet.answer(0, fmt::format("{:.1f} crank deg before or after top", angle.value));
  sum.assumptions = {
      "no play in the bearings, no offset of the pin; where the needle stands still is not top "
      "centre: two marks are (sum top-centre)"};
  return sum;
}

}  // namespace

SumForm drop_form() {
  using enum Dimension;
  return SumForm{"drop",
                 "piston below the top in crank degrees",
                 {{.name = "below",
                   .dimension = length,
                   .meaning = "piston below its top, by the dial",
                   .standard = 0.02},
                  {.name = "stroke", .dimension = length, .meaning = "stroke", .figure = "stroke"},
                  {.name = "rod",
                   .dimension = length,
                   .meaning = "connecting rod, centre to centre",
                   .figure = "rod-length"}},
                 drop};
}

}  // namespace soot::calc
