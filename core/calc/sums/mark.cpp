#include "core/calc/sums/flank_of.hpp"
#include "core/calc/sums/forms.hpp"
#include "core/calc/sums/pattern.hpp"

#include <cmath>

namespace soot::calc {
namespace {

constexpr double absurd_mark_deg = 30;

Result<Sum> mark(const SumForm& form, const Ask& ask) {
  Worksheet sheet{form, ask, "elementary, through the lift law"};
  const Result<Flank> flank = needed_flank(sheet, ask);
  if (!flank) return pass_on(flank);
  const double late_deg = sheet.needed("late").value;
  if (std::fabs(late_deg) > absurd_mark_deg)
    return fail(Kind::use,
                "a mark {:.0f} deg out (expected within {:.0f}: measure top centre again)",
                late_deg, absurd_mark_deg);
  Sum& sum = sheet.sum;
  sum.formula = {"a mark that comes before true top makes all that is read against it look late"};
  sum.lines = {fmt::format("mark {:.1f} deg {} true top: {}", std::fabs(late_deg),
                           late_deg < 0 ? "after" : "before", shift_words(*flank, late_deg))};
  add_pattern(sheet, ask.family, *flank, late_deg, "mark moved");
  sum.answer = {
      fmt::format(
          "mark moved after the setting: every cylinder reads {}, and the engine runs right",
          late_or_early(late_deg)),
      fmt::format("set by the wrong mark: every cylinder reads right, and the engine runs {}",
                  late_or_early(-late_deg)),
      "two-mark top centre shows either; no lifter is to be touched before it"};
  sum.assumptions = {describe(*flank), "gears and lifters right"};
  return sum;
}

}  // namespace

SumForm mark_form() {
  return SumForm{"mark",
                 "what a wrong top-centre mark would look like over the cylinders",
                 {{"late", Dimension::angle,
                   "crank degrees by which readings against the mark look late (the mark comes "
                   "before true top)",
                   "top-centre-error", "", 1.0},
                  rate_need},
                 mark};
}

}  // namespace soot::calc
