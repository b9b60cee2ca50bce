#include "core/calc/crank.hpp"
#include "core/calc/sums/forms.hpp"
#include "core/calc/worksheet.hpp"

#include <cmath>
#include <numbers>

namespace soot::calc {
namespace {

constexpr double half_turn_deg = 180;

const char* const source =
    "arc = pi x D x angle / 360; piston: Heywood (1988) eq. 2.4-2.6, as quoted by others";

Result<Sum> rim(const SumForm& form, const Ask& ask) {
  Worksheet sheet{form, ask, source};
  const double angle_deg = sheet.needed("angle").value;
  const Given diameter = sheet.needed("diameter");
  if (!(diameter.value > 0) || std::fabs(angle_deg) > half_turn_deg)
    return fail(Kind::use, "{:g} deg on a rim of {:.0f} mm (expected within half a turn, on a rim)",
                angle_deg, diameter.value);
  const Unit unit = diameter.unit;
  const double arc_mm = rim_arc_mm(diameter.value, angle_deg);
  Sum& sum = sheet.sum;
  sum.formula = {"arc = pi x rim diameter x degrees / 360"};
  sum.lines.push_back(fmt::format("{:g} deg = {} of rim", angle_deg,
                                  print_in(arc_mm, unit, length_decimals(unit) - 1)));
  sheet.result("arc", arc_mm, unit, length_decimals(unit) - 1);
  sum.answer.push_back(fmt::format("{:g} deg: {} along the rim", angle_deg,
                                   print_in(arc_mm, unit, length_decimals(unit) - 1)));
  sheet.result("arc of one degree", rim_arc_mm(diameter.value, 1), unit, length_decimals(unit));
  const auto stroke = sheet.take("stroke");
  const auto rod = sheet.take("rod");
  if (stroke && rod && stroke->value > 0 && rod->value > stroke->value / 2) {
    const double drop_mm = piston_drop_mm({stroke->value, rod->value}, angle_deg);
    sum.lines.push_back(
        fmt::format("piston {} below the top", print_in(drop_mm, unit, length_decimals(unit))));
    sheet.result("piston below the top", drop_mm, unit, length_decimals(unit));
  }
  sum.assumptions = {
      "measured with a tape along the rim; a rule across reads short by 0.5 % at 20 deg"};
  return sum;
}

// A rim whose marks are known needs no diameter.
Result<double> rim_of(Worksheet& sheet) {
  if (const auto scale = sheet.take("scale")) {
    if (!(scale->value > 0)) return fail(Kind::use, "a scale of 0 mm a degree (expected more)");
    return scale->value * 2 * half_turn_deg / std::numbers::pi;
  }
  const auto diameter = sheet.take("diameter");
  if (!diameter)
    return fail(Kind::use, "the rim is not known (expected diameter=MEASURE or scale=MEASURE)");
  if (!(diameter->value > 0)) return fail(Kind::use, "a rim of diameter 0 (expected more)");
  return diameter->value;
}

Result<Sum> arc(const SumForm& form, const Ask& ask) {
  Worksheet sheet{form, ask, source};
  const Given length = sheet.needed("arc");
  const Result<double> diameter = rim_of(sheet);
  if (!diameter) return pass_on(diameter);
  const double diameter_mm = *diameter;
  const double angle_deg = angle_of_arc_deg(diameter_mm, length.value);
  if (std::fabs(angle_deg) > half_turn_deg)
    return fail(Kind::use, "{} is {:.0f} deg of that rim (expected within half a turn)",
                print_in(length.value, length.unit, 1), angle_deg);
  constexpr double line_half_mm = 0.5;
  Sum& sum = sheet.sum;
  sum.formula = {"degrees = arc x 360 / (pi x rim diameter)"};
  sum.lines.push_back(fmt::format("{} x 360 / (pi x {:.0f} mm) = {:.2f} deg",
                                  print_in(length.value, length.unit, length_decimals(length.unit)),
                                  diameter_mm, angle_deg));
  // Two lines are read, one at each end.
  const double standard_deg = angle_of_arc_deg(
      diameter_mm, length.uncertainty.value_or(std::sqrt(2.0 / 3.0) * line_half_mm));
  sheet.result("angle", angle_deg, model_unit(Dimension::angle), 2, 2 * standard_deg);
  sum.answer.push_back(fmt::format("{:.1f} crank deg", angle_deg));
  sum.assumptions = {"measured along the rim, each line read to 0.5 mm either way"};
  return sum;
}

constexpr Need diameter_need{"diameter", Dimension::length, "rim diameter", "",
                             "flywheel-diameter"};

}  // namespace

SumForm rim_form() {
  return SumForm{"rim",
                 "an angle on the rim and at the piston",
                 {{"angle", Dimension::angle, "crank degrees from the top", "", ""},
                  diameter_need,
                  {"stroke", Dimension::length, "stroke", "", "stroke", std::nullopt, false},
                  {"rod", Dimension::length, "connecting rod, centre to centre", "", "rod-length",
                   std::nullopt, false}},
                 rim};
}

SumForm arc_form() {
  return SumForm{"arc",
                 "an arc of the rim in crank degrees",
                 {{"arc", Dimension::length, "arc along the rim", "", ""},
                  {"diameter", Dimension::length, "rim diameter", "", "flywheel-diameter",
                   std::nullopt, false},
                  {.name = "scale",
                   .dimension = Dimension::lift_rate,
                   .meaning = "arc of a degree by the rim's own marks, in place of the diameter",
                   .needed = false}},
                 arc};
}

}  // namespace soot::calc
