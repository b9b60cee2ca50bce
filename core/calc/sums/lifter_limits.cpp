#include "core/calc/sums/lifter_limits.hpp"

#include <algorithm>
#include <cmath>

namespace soot::calc {
namespace {

constexpr double past_nose_deg = 360;

}  // namespace

std::string depth_words(double value_mm, const Unit& unit) {
  return print_in(value_mm, unit, length_decimals(unit));
}

Result<LifterLimits> LifterLimits::read(Worksheet& sheet, const Ask& ask) {
  LifterLimits limits;
  limits.figure = sheet.needed("figure");
  const Figure* own = ask.family.figure("lifter-depth");
  if (const auto typed = sheet.take("tolerance"))
    limits.tolerance_mm = typed->value;
  else if (own && own->tolerance && limits.figure.from == "family")
    limits.tolerance_mm = own->tolerance;
  if (const auto room = sheet.take("head-clearance")) limits.head_clearance_mm = room->value;
  if (const auto pitch = sheet.take("pitch")) limits.pitch_mm = pitch->value;
  limits.bases = sheet.all("base");
  limits.base_figure_mm = ask.family.nominal("lifter-depth-base");
  limits.absurd_mm = ask.law ? ask.law->lift_mm(past_nose_deg) : limits.figure.value / 2;
  Problems problems;
  if (!(limits.figure.value > 0))
    problems.push_back(make_problem(Kind::use, "figure {} (expected a depth above 0)",
                                    depth_words(limits.figure.value, limits.figure.unit)));
  if (limits.pitch_mm && !(*limits.pitch_mm > 0))
    problems.push_back(make_problem(Kind::use, "a thread of pitch 0 (expected more)"));
  if (!problems.empty()) return tl::unexpected(problems);
  return limits;
}

std::optional<Problem> LifterLimits::refuse(const LifterFound& found,
                                            const std::optional<Flank>& flank) const {
  const std::string where = of_cylinder(found.cylinder);
  const std::string off = depth_words(std::fabs(found.error_mm), found.unit);
  if (!(found.depth_mm > 0) || std::fabs(found.error_mm) >= absurd_mm)
    return make_problem(Kind::use,
                        "{}depth {} is {} off the figure {}, more than any lifter (expected within "
                        "{}: look at the unit and the datum)",
                        where, depth_words(found.depth_mm, found.unit), off,
                        depth_words(figure.value, found.unit), depth_words(absurd_mm, found.unit));
  const bool hits = head_clearance_mm && found.error_mm > *head_clearance_mm;
  if (hits && !low_on_base_too(found))
    return make_problem(Kind::use,
                        "{}raising the lifter by {} may put the plunger through the head, which "
                        "leaves {} (expected gears and mark proved first, and base=MEASURE, the "
                        "depth on the base circle, as deep)",
                        where, off, depth_words(*head_clearance_mm, found.unit));
  if (flank && !flank->late_for_low_deg(found.error_mm))
    return make_problem(Kind::use,
                        "{}{} off the figure leaves the flank of the cam (expected less: look at "
                        "the stroke and the gears)",
                        where, off);
  return std::nullopt;
}

bool LifterLimits::low_on_base_too(const LifterFound& found) const {
  const auto base = std::find_if(bases.begin(), bases.end(), [&](const Given& given) {
    return given.cylinder == found.cylinder;
  });
  if (!base_figure_mm || base == bases.end()) return false;
  return std::fabs(base->value - *base_figure_mm - found.error_mm) <= found.expanded_mm;
}

}  // namespace soot::calc
