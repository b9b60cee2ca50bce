#include "core/calc/sums/flank_of.hpp"
#include "core/calc/sums/forms.hpp"
#include "core/calc/sums/pattern.hpp"
#include "core/calc/train.hpp"

#include <algorithm>
#include <cmath>

namespace soot::calc {
namespace {

// A tooth error is a whole number of teeth and the same on every cylinder, within what gauges
// allow.
constexpr double off_whole = 0.3;
constexpr double spread_deg = 1.5;

std::string verdict(const std::vector<double>& late_deg, double one_tooth_deg) {
  const auto [least, most] = std::minmax_element(late_deg.begin(), late_deg.end());
  double mean_deg = 0;
  for (const double late : late_deg)
    mean_deg += late / static_cast<double>(late_deg.size());
  const double teeth = mean_deg / one_tooth_deg;
  const double whole = std::round(teeth);
  const bool alike = *most - *least < spread_deg;
  const std::string found =
      fmt::format("depths stand for {} on average, {:.1f} deg between cylinders: {:.2f} of a tooth",
                  late_or_early(mean_deg), *most - *least, std::fabs(teeth));
  if (alike && whole != 0 && std::fabs(teeth - whole) < off_whole)
    return found + fmt::format("; fits {:.0f} tooth out, {}", std::fabs(whole),
                               whole > 0 ? "late" : "early");
  return found + "; does not fit a tooth out";
}

Result<Sum> tooth(const SumForm& form, const Ask& ask) {
  Worksheet sheet{form, ask, "360 deg / crank teeth and the lift law, elementary"};
  const Result<Flank> flank = needed_flank(sheet, ask);
  if (!flank) return pass_on(flank);
  double one_tooth_deg = 0;
  if (const auto teeth = sheet.take("crank-teeth")) {
    if (!(teeth->value >= 1)) return fail(Kind::use, "crank gear of no teeth (expected some)");
    one_tooth_deg = 360 / teeth->value;
  } else if (const auto known = tooth_deg(ask.family)) {
    one_tooth_deg = *known;
  } else {
    return fail(Kind::use, "the gears' teeth are not known (expected crank-teeth=NUMBER)");
  }
  Sum& sum = sheet.sum;
  sum.formula = {"one tooth = 360 deg / teeth of the crank's gear",
                 "depth changes by what the cam lifts over that angle up to top centre"};
  sum.lines = {fmt::format("one tooth = {:.2f} crank deg", one_tooth_deg),
               fmt::format("late: {}", shift_words(*flank, one_tooth_deg)),
               fmt::format("early: {}", shift_words(*flank, -one_tooth_deg))};
  sheet.result("one tooth", one_tooth_deg, model_unit(Dimension::angle), 2);
  add_pattern(sheet, ask.family, *flank, one_tooth_deg, "a tooth late");
  add_pattern(sheet, ask.family, *flank, -one_tooth_deg, "a tooth early");
  sum.answer = {
      "every cylinder alike, by a whole number of teeth: mesh again, never adjust it out"};

  std::vector<double> late_deg;
  if (const auto figure = sheet.take("figure"))
    for (const Given& depth : sheet.all("depth"))
      late_deg.push_back(
          flank->late_for_depth_shift_deg(depth.value - figure->value).value_or(std::nan("")));
  if (!late_deg.empty()) {
    const bool off_flank =
        std::any_of(late_deg.begin(), late_deg.end(), [](double late) { return std::isnan(late); });
    sum.answer.push_back(off_flank ? "one of the depths is off the flank: look at the stroke first"
                                   : verdict(late_deg, one_tooth_deg));
  }
  sum.assumptions = {describe(*flank), "lifters, mark and gaskets right, gears otherwise sound"};
  return sum;
}

}  // namespace

SumForm tooth_form() {
  return SumForm{"tooth",
                 "what a tooth out would look like over the cylinders",
                 {{"crank-teeth", Dimension::number, "teeth of the crank's gear", "", "crank-teeth",
                   std::nullopt, false},
                  {"depth", Dimension::length, "depths read, to be held against it", "lifter-depth",
                   "", std::nullopt, false},
                  {"figure", Dimension::length, "what the depth should be", "", "lifter-depth",
                   std::nullopt, false},
                  rate_need},
                 tooth};
}

}  // namespace soot::calc
