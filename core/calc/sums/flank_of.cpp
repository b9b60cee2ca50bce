#include "core/calc/sums/flank_of.hpp"

namespace soot::calc {

Result<std::optional<Flank>> flank_of(Worksheet& sheet, const Ask& ask) {
  if (const auto rate = sheet.take("rate")) {
    if (!(rate->value > 0))
      return fail(Kind::use, "lift rate {} (expected more than 0)",
                  print_in(rate->value, rate->unit, 4));
    return Flank::straight(rate->value);
  }
  if (!ask.law && !ask.family.nominal("lift-rate")) return std::optional<Flank>{};
  const Result<Flank> flank = Flank::of(ask.family, ask.law);
  if (!flank) return pass_on(flank);
  return *flank;
}

Result<Flank> needed_flank(Worksheet& sheet, const Ask& ask) {
  const Result<std::optional<Flank>> flank = flank_of(sheet, ask);
  if (!flank) return pass_on(flank);
  if (!*flank)
    return fail(Kind::use,
                "no lift law and no lift rate is known of this engine (expected rate=MEASURE)");
  return **flank;
}

std::string describe(const Flank& flank) {
  return flank.is_straight()
             ? fmt::format(
                   "one lift rate, {:.4g} mm a crank degree, all along the flank: not for "
                   "more than about 4 deg on a curved one",
                   flank.rate_at_closing())
             : fmt::format("the engine's own lift law ({:.4g} mm a crank degree at port closing)",
                           flank.rate_at_closing());
}

}  // namespace soot::calc
