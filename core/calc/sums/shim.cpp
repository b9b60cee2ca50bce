#include "core/calc/sums/flank_of.hpp"
#include "core/calc/sums/forms.hpp"

#include <cmath>

namespace soot::calc {
namespace {

constexpr double most_thickness_mm = 10;
constexpr double absurd_deg = 40;

std::string print(double value_mm, const Unit& unit) {
  return written(value_mm, unit, length_decimals(unit));
}

/// The size of a series that lies nearest.
double nearest_size_mm(double wanted_mm, double smallest_mm, double step_mm) {
  return smallest_mm + step_mm * std::round((wanted_mm - smallest_mm) / step_mm);
}

Result<Sum> give_thickness(Worksheet& sheet, std::string_view what, double thickness_mm,
                           const Unit& unit) {
  if (!(thickness_mm > 0 && thickness_mm < most_thickness_mm))
    return fail(Kind::use, "a {} of {} (expected 0 to {:.0f} mm: look at the dimensions)", what,
                print(thickness_mm, unit), most_thickness_mm);
  sheet.result(std::string{what}, thickness_mm, unit, length_decimals(unit));
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

Result<Sum> timing_shim(const SumForm& form, const Ask& ask) {
  Worksheet sheet{form, ask,
                  "degrees x lift rate; thicker button earlier, thicker shim under the pump later: "
                  "workshop manuals of small engines"};
  const Result<Flank> flank = needed_flank(sheet, ask);
  if (!flank) return pass_on(flank);
  const double late_deg = sheet.needed("late").value;
  if (std::fabs(late_deg) > absurd_deg)
    return fail(Kind::use, "{:.0f} deg (expected within {:.0f})", late_deg, absurd_deg);
  const double raise_mm = flank->low_for_late_mm(late_deg);
  const Unit unit = model_unit(Dimension::length);
  const std::string amount = print(std::fabs(raise_mm), unit);
  Sum& sum = sheet.sum;
  sum.formula = {"thickness = what the cam lifts over those degrees at port closing"};
  sum.lines = {fmt::format("{} = {} of lift", late_or_early(late_deg), amount)};
  sheet.result("thickness", raise_mm, unit, 3);
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
  const double old_button_mm = sheet.needed("old-button").value;
  const double new_closing_mm = sheet.needed("new-closing").value;
  const double button_mm = old_closing.value + old_button_mm - new_closing_mm;
  const Unit unit = old_closing.unit;
  sheet.sum.formula = {
      "button = old pump's closing dimension + old button - new pump's closing "
      "dimension"};
  sheet.sum.lines = {fmt::format("{} + {} - {} = {}", print(old_closing.value, unit),
                                 print(old_button_mm, unit), print(new_closing_mm, unit),
                                 print(button_mm, unit))};
  sheet.sum.assumptions = {"the engine was timed right with the old pump"};
  return give_thickness(sheet, "button", button_mm, unit);
}

Result<Sum> shim(const SumForm& form, const Ask& ask) {
  Worksheet sheet{form, ask,
                  "service manual p. 95, method 1 (shim from a depth micrometer at port closing)"};
  const Given closing = sheet.needed("closing");
  const Given depth = sheet.needed("depth");
  const double shim_mm = closing.value - depth.value;
  sheet.sum.formula = {
      "shim under the pump = pump's port-closing dimension - depth from its face to the lifter"};
  sheet.sum.lines = {fmt::format("{} - {} = {}", print(closing.value, closing.unit),
                                 print(depth.value, closing.unit), print(shim_mm, closing.unit))};
  sheet.sum.assumptions = {
      "depth read at the crank angle of port closing, coming up in the running "
      "direction"};
  return give_thickness(sheet, "shim", shim_mm, closing.unit);
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
      {{"late", Dimension::angle, "crank degrees late (less than 0: early)", "", ""}, rate_need},
      timing_shim};
}

SumForm button_form() {
  return SumForm{
      "button",
      "timing button for another pump",
      {{"old-closing", Dimension::length, "port-closing dimension of the old pump", "", ""},
       {"old-button", Dimension::length, "its button", "", ""},
       {"new-closing", Dimension::length, "port-closing dimension of the new pump", "", ""},
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
        ""},
       step_need,
       smallest_need},
      shim};
}

}  // namespace soot::calc
