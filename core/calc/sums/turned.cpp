#include "core/calc/sums/flank_of.hpp"
#include "core/calc/sums/forms.hpp"
#include "core/calc/worksheet.hpp"

#include <array>
#include <cmath>
#include <limits>

namespace soot::calc {
namespace {

constexpr double flats_a_turn = 6;
constexpr double most_flats = 30;

Result<Sum> turned(const SumForm& form, const Ask& ask) {
  Worksheet sheet{form, ask,
                  "lift at port closing and screw pitch, elementary; uncertainty: JCGM 100:2008"};
  const Result<Flank> flank = needed_flank(sheet, ask);
  if (!flank) return pass_on(flank);
  const Given flats = sheet.needed("flats");
  const double pitch_mm = sheet.needed("pitch").value;
  if (!(pitch_mm > 0)) return fail(Kind::use, "a thread of pitch 0 (expected more)");
  if (!(std::fabs(flats.value) <= most_flats))
    return fail(Kind::use, "{:g} flats (expected within {:g})", flats.value, most_flats);
  const double raise_mm = flats.value / flats_a_turn * pitch_mm;
  const std::array in{estimate(flats)};
  const Estimate raised{raise_mm, in[0].standard / flats_a_turn * pitch_mm};
  const Estimate earlier = propagate(in, [&](auto at) {
    const auto late = flank->late_for_low_deg(-at[0] / flats_a_turn * pitch_mm);
    return late ? -*late : std::numeric_limits<double>::quiet_NaN();
  });
  if (!std::isfinite(earlier.value))
    return fail(Kind::use, "{:g} flats leave the flank of the cam (expected fewer)", flats.value);
  Sum& sum = sheet.sum;
  sum.formula = {"raised = flats / 6 x pitch; out raises, in lowers",
                 "degrees = what the crank turns while the cam lifts that at port closing"};
  sum.lines = {fmt::format("{:g} / 6 x {:g} mm = {:.3f} mm", flats.value, pitch_mm, raise_mm),
               fmt::format("through the cam: {}", late_or_early(-earlier.value))};
  sheet.result("raised", raised, model_unit(Dimension::length), 3);
  sheet.result("earlier", earlier, model_unit(Dimension::angle), 1);
  const double count = std::fabs(flats.value);
  sheet.answer(0, fmt::format("{:g} flat{} {}: {:.1f} deg {}", count, count == 1 ? "" : "s",
                              flats.value < 0 ? "in" : "out", std::fabs(earlier.value),
                              flats.value < 0 ? "later" : "earlier"));
  sum.assumptions = {describe(*flank),
                     "the engine stood at its figure before; the jam nut draws up as before"};
  return sum;
}

}  // namespace

SumForm turned_form() {
  using enum Dimension;
  return SumForm{"turned",
                 "what so many flats of a lifter's screw do",
                 {{.name = "flats",
                   .dimension = number,
                   .meaning = "flats turned, out (up) positive",
                   .standard = 0.1},
                  {.name = "pitch",
                   .dimension = length,
                   .meaning = "pitch of the lifter's screw",
                   .figure = "lifter-thread-pitch"},
                  rate_need},
                 turned};
}

}  // namespace soot::calc
