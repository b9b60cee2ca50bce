#include "core/calc/sums/flank_of.hpp"
#include "core/calc/sums/forms.hpp"
#include "core/calc/sums/pattern.hpp"
#include "core/calc/train.hpp"
#include "core/calc/uncertainty.hpp"

#include <algorithm>

namespace soot::calc {
namespace {

constexpr double dial_half_mm = 0.02;

Result<Sum> lash(const SumForm& form, const Ask& ask) {
  Worksheet sheet{form, ask,
                  "lash / pitch radius, elementary; lash closed in the running direction: TM "
                  "9-2815-225-34&P p. 3-568"};
  const Result<Flank> flank = needed_flank(sheet, ask);
  if (!flank) return pass_on(flank);
  const std::vector<Given> readings = sheet.all("backlash");
  const bool measured = !readings.empty();
  const Figure* figure = ask.family.figure("backlash");
  std::optional<Given> each;
  if (measured) {
    // Round a worn gear the lash differs; the largest is what counts for wear.
    each = *std::max_element(readings.begin(), readings.end(),
                             [](const Given& a, const Given& b) { return a.value < b.value; });
  } else if (figure && figure->most) {
    each = Given{*figure->most, figure->unit, 0, std::nullopt, "family's limit"};
    sheet.put_in("backlash", *each);
  }
  if (!each) return fail(Kind::use, "the gears' lash is not known (expected backlash=MEASURE)");
  const auto whole_deg = lash_deg(ask.family, each->value);
  if (!whole_deg)
    return fail(Kind::use,
                "family {} lacks crank-teeth, gear-module or meshes (expected all three)",
                ask.family.id);
  if (!(each->value >= 0) || *whole_deg > 10)
    return fail(Kind::use, "a lash of {} in each mesh (expected less than a tooth)",
                print_in(each->value, each->unit, 3));
  Sum& sum = sheet.sum;
  sum.formula = {
      "crank degrees = lash of all meshes together / pitch radius of the crank's gear",
      "turned back onto a mark, the cam may stand ahead by anything from nothing to that"};
  sum.lines.push_back(fmt::format("{:.0f} x {} / {:.0f} mm x 57.3 = {:.2f} deg ({})",
                                  ask.family.nominal("meshes").value_or(0),
                                  print_in(each->value, each->unit, length_decimals(each->unit)),
                                  crank_gear_radius_mm(ask.family).value_or(0), *whole_deg,
                                  measured ? "measured" : "lash at its limit"));
  const double share = each->value > 0 ? rectangular(dial_half_mm) / each->value : 0;
  sheet.result("lash at the crank", *whole_deg, model_unit(Dimension::angle), 2,
               measured ? std::optional{2 * share * *whole_deg} : std::nullopt);
  if (const auto new_deg = lash_new_deg(ask.family))
    sheet.result("lash at the crank, new", *new_deg, model_unit(Dimension::angle), 2);
  add_pattern(sheet, ask.family, *flank, *whole_deg, "set after turning back, at most");
  add_pattern(sheet, ask.family, *flank, -*whole_deg, "read after turning back, at most");
  sum.answer = {
      fmt::format(
          "set after turning back: reads right then, runs late; read again coming up: {} at "
          "most, differing between cylinders",
          shift_words(*flank, *whole_deg)),
      fmt::format(
          "read after turning back: looks early, {} at most; come up 45 deg and read again: "
          "a figure that moves was the lash",
          shift_words(*flank, -*whole_deg))};
  sum.assumptions = {describe(*flank), "every mesh has the same lash"};
  return sum;
}

}  // namespace

SumForm lash_form() {
  return SumForm{"lash",
                 "the gears' lash in degrees, and what a setting on the wrong flank looks like",
                 {{"backlash", Dimension::length, "lash of one mesh at the pitch line", "backlash",
                   "", std::nullopt, false},
                  rate_need},
                 lash};
}

}  // namespace soot::calc
