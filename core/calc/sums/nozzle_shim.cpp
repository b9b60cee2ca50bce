#include "core/calc/sums/forms.hpp"
#include "core/calc/worksheet.hpp"

#include <cmath>

namespace soot::calc {
namespace {

// Published for 0.1 mm of shim: 7 to 10 kgf/cm2 (service manual of small engines), 19 kgf/cm2
// (service manual p. 3-4): the softest and the stiffest spring found.
constexpr double kgf_per_cm2_in_bar = 0.980665;
constexpr double softest_bar = 7 * kgf_per_cm2_in_bar;
constexpr double stiffest_bar = 19 * kgf_per_cm2_in_bar;
constexpr double shim_step_mm = 0.1;
constexpr double repeat_bar = 2;  // of one reading of a shop gauge; its own error is in both
constexpr double most_bar = 600;

Result<Sum> nozzle_shim(const SumForm& form, const Ask& ask) {
  Worksheet sheet{
      form, ask,
      "shim to opening pressure: three service manuals (7 to 10 and 19 kgf/cm2 for 0.1 mm)"};
  const Given wanted = sheet.needed("wanted");
  const auto own_rate = sheet.take("per-tenth");
  if (own_rate && !(own_rate->value > 0))
    return fail(Kind::use, "no rise for a tenth of a millimetre (expected some)");
  Sum& sum = sheet.sum;
  const Unit mm = model_unit(Dimension::length);
  for (const Given& found : sheet.all("found")) {
    if (!(found.value > 0 && wanted.value > 0 && found.value < most_bar && wanted.value < most_bar))
      return fail(Kind::use, "an opening pressure of {} (expected 0 to {:.0f} bar)",
                  print_in(found.value, found.unit, 0), most_bar);
    const double rise_bar = wanted.value - found.value;
    const std::string where = of_cylinder(found.cylinder);
    const std::string_view way = rise_bar >= 0 ? "thicker" : "thinner";
    sum.lines.push_back(fmt::format("{}{} - {} = {}", where, print_in(wanted.value, found.unit, 0),
                                    print_in(found.value, found.unit, 0),
                                    print_in(rise_bar, found.unit, 0)));
    if (own_rate) {
      const double shim_mm = shim_step_mm * rise_bar / own_rate->value;
      const double standard_mm =
          shim_step_mm * std::sqrt(2.0) * found.uncertainty.value_or(repeat_bar) / own_rate->value;
      sheet.result("shim", shim_mm, mm, 2, 2 * standard_mm, found.cylinder);
      sum.answer.push_back(fmt::format("{}shim {:.2f} mm {}", where, std::fabs(shim_mm), way));
      continue;
    }
    const double least_mm = shim_step_mm * rise_bar / stiffest_bar;
    const double most_mm = shim_step_mm * rise_bar / softest_bar;
    sheet.result("shim, stiffest spring", least_mm, mm, 2, std::nullopt, found.cylinder);
    sheet.result("shim, softest spring", most_mm, mm, 2, std::nullopt, found.cylinder);
    sum.answer.push_back(
        fmt::format("{}start with {:.2f} mm {} and test again: the change gives this spring's own "
                    "rate (per-tenth=); {:.2f} mm at most",
                    where, std::fabs(least_mm), way, std::fabs(most_mm)));
  }
  sum.formula = {"shim = pressure wanted / pressure that a tenth of a millimetre makes x 0.1 mm"};
  sum.assumptions = {own_rate ? "the spring's rate as given, the same gauge before and after"
                              : "an estimate: springs differ by a factor of nearly three",
                     "new springs settle: leave room for 5 to 10 bar (trade practice)"};
  sum.cautions = {
      "the spray goes through skin: shrouded jar, eye and face cover, no hand below it"};
  return sum;
}

}  // namespace

SumForm nozzle_shim_form() {
  return SumForm{
      "nozzle-shim",
      "nozzle opening pressure to shims",
      {{"found", Dimension::pressure, "opening pressure as tested", "nozzle-opening", ""},
       {"wanted", Dimension::pressure, "opening pressure to be set", "", "nozzle-opening"},
       {"per-tenth", Dimension::pressure,
        "rise of this spring for 0.1 mm of shim, once it is known", "", "", std::nullopt, false}},
      nozzle_shim};
}

}  // namespace soot::calc
