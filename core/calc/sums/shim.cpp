#include "core/calc/sums/flank_of.hpp"
#include "core/calc/sums/forms.hpp"

#include <array>
#include <cmath>
#include <limits>

namespace soot::calc {
namespace {

constexpr double most_thickness_mm = 10;
constexpr double absurd_deg = 40;

// Standard uncertainties: a dimension stamped to 0.001 in, a micrometer's reading, a depth gauge's
// (trade practice).
constexpr double stamped_mm = 0.0073, micrometer_mm = 0.004, gauge_mm = 0.025;

std::string print(double value_mm, const Unit& unit) {
  return print_in(value_mm, unit, length_decimals(unit));
}

/// The size of a series that lies nearest.
double nearest_size_mm(double wanted_mm, double smallest_mm, double step_mm) {
  return smallest_mm + step_mm * std::round((wanted_mm - smallest_mm) / step_mm);
}

Result<Sum> give_thickness(Worksheet& sheet, std::string_view what, const Estimate& thickness,
                           const Unit& unit) {
  const double thickness_mm = thickness.value;
  if (!(thickness_mm > 0 && thickness_mm < most_thickness_mm))
    return fail(Kind::use, "a {} of {} (expected 0 to {:.0f} mm: look at the dimensions)", what,
                print(thickness_mm, unit), most_thickness_mm);
  sheet.result(std::string{what}, thickness, unit, length_decimals(unit));
  const auto step = sheet.take("step");
  const auto smallest = sheet.take("smallest");
  if (!step || !(step->value > 0)) {
    sheet.sum.answer.push_back(fmt::format("{} of {}", what, print(thickness_mm, unit)));
    return sheet.sum;
  }
  const double size_mm = nearest_size_mm(thickness_mm, smallest ? smallest->value : 0, step->value);
  sheet.result("nearest size", size_mm, unit, length_decimals(unit));
  sheet.sum.answer.push_back(fmt::format("{} of {}: the nearest size is {}", what,
                                         print(thickness_mm, unit), print(size_mm, unit)));
  return sheet.sum;
}

// The other way round: what a shim does.
Result<Sum> of_thickness(Worksheet& sheet, const Given& thickness, const Flank& flank) {
  const std::array in{estimate(thickness)};
  const Estimate late = propagate(in, [&](auto at) {
    return flank.late_for_low_deg(at[0]).value_or(std::numeric_limits<double>::quiet_NaN());
  });
  if (!std::isfinite(late.value))
    return fail(Kind::use, "{} leaves the flank of the cam (expected less)",
                print_in(thickness.value, thickness.unit, length_decimals(thickness.unit)));
  sheet.sum.formula = {"degrees = what the crank turns while the cam lifts the thickness"};
  sheet.sum.lines = {fmt::format("{} of lift = {}",
                                 print(std::fabs(thickness.value), thickness.unit),
                                 late_or_early(late.value))};
  sheet.result("late", late, model_unit(Dimension::angle), 2);
  sheet.sum.answer = {fmt::format("a shim under the pump {} by {}, or a button as much {}: {}",
                                  thickness.value < 0 ? "thinner" : "thicker",
                                  print(std::fabs(thickness.value), thickness.unit),
                                  thickness.value < 0 ? "thicker" : "thinner",
                                  late_or_early(late.value))};
  sheet.sum.assumptions = {describe(flank)};
  return sheet.sum;
}

Result<Sum> timing_shim(const SumForm& form, const Ask& ask) {
  Worksheet sheet{form, ask,
                  "degrees x lift rate; thicker button earlier, thicker shim under the pump later: "
                  "workshop manuals of small engines"};
  const Result<Flank> flank = needed_flank(sheet, ask);
  if (!flank) return pass_on(flank);
  if (const auto thickness = sheet.take("thickness"))
    return of_thickness(sheet, *thickness, *flank);
  const auto late = sheet.take("late");
  if (!late)
    return fail(Kind::use, "nothing is asked (expected late=MEASURE, or thickness=MEASURE)");
  const double late_deg = late->value;
  if (std::fabs(late_deg) > absurd_deg)
    return fail(Kind::use, "{:.0f} deg (expected within {:.0f})", late_deg, absurd_deg);
  const double raise_mm = flank->low_for_late_mm(late_deg);
  const Unit unit = model_unit(Dimension::length);
  const std::string amount = print(std::fabs(raise_mm), unit);
  Sum& sum = sheet.sum;
  sum.formula = {"thickness = what the cam lifts over those degrees at port closing"};
  sum.lines = {fmt::format("{} = {} of lift", late_or_early(late_deg), amount)};
  const std::array in{estimate(*late)};
  const Estimate raise = propagate(in, [&](auto at) { return flank->low_for_late_mm(at[0]); });
  sheet.result("thickness", raise, unit, 3);
  const bool is_late = raise_mm >= 0;
  sum.answer = {
      fmt::format("button on the lifter thicker or thinner: {} {}", amount,
                  is_late ? "thicker" : "thinner"),
      fmt::format("or shim under the pump: {} {}", amount, is_late ? "thinner" : "thicker")};
  sum.assumptions = {describe(*flank)};
  return sum;
}

Result<Sum> button(const SumForm& form, const Ask& ask) {
  Worksheet sheet{form, ask, "TM 5-6115-584-34 (timing method 1); TM 9-2330-356-14 p. 7-65"};
  const Given old_closing = sheet.needed("old-closing");
  const Given old_button = sheet.needed("old-button");
  const Given new_closing = sheet.needed("new-closing");
  const std::array in{estimate(old_closing), estimate(old_button), estimate(new_closing)};
  const Estimate button = propagate(in, [](auto at) { return at[0] + at[1] - at[2]; });
  const Unit unit = old_closing.unit;
  sheet.sum.formula = {
      "button = old pump's closing dimension + old button - new pump's closing "
      "dimension"};
  sheet.sum.lines = {fmt::format("{} + {} - {} = {}", print(old_closing.value, unit),
                                 print(old_button.value, unit), print(new_closing.value, unit),
                                 print(button.value, unit))};
  sheet.sum.assumptions = {"the engine was timed right with the old pump"};
  return give_thickness(sheet, "button", button, unit);
}

Result<Sum> shim(const SumForm& form, const Ask& ask) {
  Worksheet sheet{form, ask,
                  "service manual p. 95, method 1 (shim from a depth micrometer at port closing)"};
  const Given closing = sheet.needed("closing");
  const Given depth = sheet.needed("depth");
  const std::array in{estimate(closing), estimate(depth)};
  const Estimate shim = propagate(in, [](auto at) { return at[0] - at[1]; });
  sheet.sum.formula = {
      "shim under the pump = pump's port-closing dimension - depth from its face to the lifter"};
  sheet.sum.lines = {fmt::format("{} - {} = {}", print(closing.value, closing.unit),
                                 print(depth.value, closing.unit),
                                 print(shim.value, closing.unit))};
  sheet.sum.assumptions = {
      "depth read at the crank angle of port closing, coming up in the running "
      "direction"};
  return give_thickness(sheet, "shim", shim, closing.unit);
}

constexpr Need step_need{
    "step", Dimension::length, "step between the sizes to be had", "", "", std::nullopt, false};
constexpr Need smallest_need{
    "smallest", Dimension::length, "smallest of those sizes", "", "", std::nullopt, false};

}  // namespace

SumForm timing_shim_form() {
  return SumForm{
      "timing-shim",
      "degrees to the thickness of a button or a shim",
      {{.name = "late",
        .dimension = Dimension::angle,
        .meaning = "crank degrees late (less than 0: early)",
        .needed = false},
       {.name = "thickness",
        .dimension = Dimension::length,
        .meaning = "shim under the pump thicker by so much (less than 0: thinner), to be told the "
                   "degrees",
        .needed = false},
       rate_need},
      timing_shim};
}

SumForm button_form() {
  return SumForm{
      "button",
      "timing button for another pump",
      {{"old-closing", Dimension::length, "port-closing dimension of the old pump", "", "",
        std::nullopt, true, stamped_mm},
       {"old-button", Dimension::length, "its button", "", "", std::nullopt, true, micrometer_mm},
       {"new-closing", Dimension::length, "port-closing dimension of the new pump", "", "",
        std::nullopt, true, stamped_mm},
       step_need,
       smallest_need},
      button};
}

SumForm shim_form() {
  return SumForm{
      "shim",
      "shim under a pump from a depth",
      {{"closing", Dimension::length, "port-closing dimension of the pump", "", "foot-at-closing"},
       {"depth", Dimension::length, "depth from the pump's face to the lifter at port closing", "",
        "", std::nullopt, true, gauge_mm},
       step_need,
       smallest_need},
      shim};
}

}  // namespace soot::calc
