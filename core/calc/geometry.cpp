#include "core/calc/geometry.hpp"

#include "core/base/text.hpp"
#include "core/calc/crank.hpp"
#include "core/calc/flank.hpp"
#include "core/model/words.hpp"

#include <algorithm>
#include <cmath>

namespace soot::calc {
namespace {

// A tooth is at most 13 degrees, a drive three teeth out 40: points reach that far either way, so
// close that the line between two of them leaves no cam by a hundredth of a millimetre, even where
// the flank begins.
constexpr int steps_each_way = 400;
constexpr double step_deg = 0.1;

constexpr double turned_past_nose_deg = 360;

// A law of one rate counts as straight if it is so over two teeth either way, though it has an end
// farther off: a straight response is one number, and responses in proportion are one unknown.
constexpr double straight_reach_deg = 30;
constexpr double straight_within_mm = 1e-9;

TermResponse straight(std::string_view term, double slope) {
  return TermResponse{std::string{term}, {}, slope};
}

TermResponse through_law(std::string_view term, const Flank& flank) {
  if (flank.is_straight()) return straight(term, flank.rate_at_closing());
  TermResponse response{std::string{term}, {}, 0};
  for (int step = -steps_each_way; step <= steps_each_way; ++step) {
    const double late_deg = step * step_deg;
    response.points.emplace_back(late_deg, flank.depth_shift_mm(late_deg));
  }
  const double slope = flank.depth_shift_mm(1);
  const bool bends = std::any_of(
      response.points.begin(), response.points.end(), [&](const std::pair<double, double>& point) {
        return std::abs(point.first) <= straight_reach_deg &&
               std::abs(point.second - slope * point.first) > straight_within_mm;
      });
  return bends ? response : straight(term, slope);
}

using Responses = std::vector<TermResponse>;

// Terms as they move the place of port closing before the top mark, times what a degree is there.
Responses before_top(const Flank& flank, double per_deg) {
  const double per_mm = per_deg / flank.rate_at_closing();
  return {straight(term::drive_late, -per_deg), straight(term::mark_late, -per_deg),
          straight(term::lifter_low, -per_mm), straight(term::lobe_worn, -per_mm),
          straight(term::plunger_short, -per_mm)};
}

Result<Responses> rim_arc(const Family& family, const Flank& flank) {
  const auto diameter_mm = family.nominal("flywheel-diameter");
  if (!diameter_mm || !(*diameter_mm > 0))
    return fail(Kind::data, "family {} gives no flywheel-diameter (expected one)", family.id);
  return before_top(flank, rim_arc_mm(*diameter_mm, 1));
}

struct PistonAtClosing {
  CrankGear gear;
  double before_top_deg = 0;
};

std::optional<PistonAtClosing> piston_of(const Family& family) {
  const auto stroke_mm = family.nominal("stroke");
  const auto rod_mm = family.nominal("rod-length");
  const auto before_top_deg = family.nominal("static-timing");
  const bool known = stroke_mm && rod_mm && before_top_deg;
  if (!known || !(*stroke_mm > 0 && *rod_mm > *stroke_mm / 2)) return std::nullopt;
  return PistonAtClosing{{*stroke_mm, *rod_mm}, *before_top_deg};
}

Result<Responses> piston_drop(const Family& family, const Flank& flank) {
  const auto piston = piston_of(family);
  if (!piston)
    return fail(Kind::data,
                "family {} does not say where its pistons stand when the ports close (expected "
                "figures stroke, rod-length and static-timing)",
                family.id);
  const double at_closing_mm = piston_drop_mm(piston->gear, piston->before_top_deg);
  TermResponse drive{std::string{term::drive_late}, {}, 0};
  // Up to the top and no further: past it the piston goes down again.
  for (int step = -steps_each_way; step * step_deg <= piston->before_top_deg; ++step)
    drive.points.emplace_back(
        step * step_deg,
        piston_drop_mm(piston->gear, piston->before_top_deg - step * step_deg) - at_closing_mm);
  const double per_mm =
      piston_slope_mm_per_deg(piston->gear, piston->before_top_deg) / flank.rate_at_closing();
  return Responses{std::move(drive), straight(term::lifter_low, -per_mm),
                   straight(term::lobe_worn, -per_mm), straight(term::plunger_short, -per_mm)};
}

std::optional<double> rim_arc_at_closing(const Family& family) {
  const auto diameter_mm = family.nominal("flywheel-diameter");
  const auto before_top_deg = family.nominal("static-timing");
  if (!diameter_mm || !before_top_deg) return std::nullopt;
  return rim_arc_mm(*diameter_mm, *before_top_deg);
}

std::optional<double> piston_drop_at_closing(const Family& family) {
  const auto piston = piston_of(family);
  return piston ? std::optional{piston_drop_mm(piston->gear, piston->before_top_deg)}
                : std::nullopt;
}

std::optional<double> plus(std::optional<double> a, double b) {
  return a ? std::optional{*a + b} : std::nullopt;
}

std::optional<double> depth(const Family& family, const LiftLaw& law) {
  const double lift_at_top_mm = law.lift_mm(0);
  if (const auto base_mm = family.nominal("lifter-depth-base")) return *base_mm - lift_at_top_mm;
  const auto pre_stroke_mm = family.nominal("pre-stroke");
  if (!pre_stroke_mm) return std::nullopt;
  return plus(family.nominal("foot-at-closing"), *pre_stroke_mm - lift_at_top_mm);
}

std::optional<double> base_depth(const Family& family, const LiftLaw* law) {
  const auto pre_stroke_mm = family.nominal("pre-stroke");
  const auto closing_mm = family.nominal("foot-at-closing");
  if (pre_stroke_mm && closing_mm) return *closing_mm + *pre_stroke_mm;
  if (!law) return std::nullopt;
  return plus(family.nominal("lifter-depth"), law->lift_mm(0));
}

std::optional<double> spill(const Family& family, const LiftLaw& law) {
  const auto pre_stroke_mm = family.nominal("pre-stroke");
  const auto angle_deg = pre_stroke_mm ? law.angle_deg(*pre_stroke_mm) : std::nullopt;
  return angle_deg ? std::optional{-*angle_deg} : std::nullopt;
}

}  // namespace

bool is_geometry_word(std::string_view word) {
  return std::find(geometry_words.begin(), geometry_words.end(), word) != geometry_words.end();
}

double TermResponse::at(double magnitude) const {
  if (points.empty()) return slope * magnitude;
  const auto above = std::upper_bound(
      points.begin() + 1, points.end() - 1, magnitude,
      [](double wanted, const std::pair<double, double>& point) { return wanted < point.first; });
  const auto& [x1, y1] = *(above - 1);
  const auto& [x2, y2] = *above;
  return y1 + (y2 - y1) * (magnitude - x1) / (x2 - x1);
}

std::optional<double> TermResponse::back(double shift) const {
  if (points.empty()) return slope == 0 ? std::nullopt : std::optional{shift / slope};
  for (std::size_t i = 1; i < points.size(); ++i) {
    const auto& [x1, y1] = points[i - 1];
    const auto& [x2, y2] = points[i];
    if (y1 != y2 && std::min(y1, y2) <= shift && shift <= std::max(y1, y2))
      return x1 + (x2 - x1) * (shift - y1) / (y2 - y1);
  }
  return std::nullopt;
}

Result<std::vector<TermResponse>> responses(std::string_view geometry, const Family& family,
                                            const LiftLaw* law) {
  if (geometry == "base-depth") return Responses{straight(term::lifter_low, 1)};
  if (geometry == "plunger-length") return Responses{straight(term::plunger_short, -1)};
  if (geometry == "lobe-lift") return Responses{straight(term::lobe_worn, -1)};
  if (geometry == "mark") return Responses{straight(term::mark_late, 1)};
  if (!is_geometry_word(geometry)) {
    const std::vector<std::string> words(geometry_words.begin(), geometry_words.end());
    return fail(Kind::data, "'{}' is no rule of geometry (expected {}{})", geometry,
                fmt::join(words, ", "), did_you_mean(geometry, words));
  }
  const Result<Flank> flank = Flank::of(family, law);
  if (!flank) return pass_on(flank);
  if (geometry == "depth")
    return Responses{through_law(term::drive_late, *flank), through_law(term::mark_late, *flank),
                     straight(term::lifter_low, 1), straight(term::lobe_worn, 1)};
  if (geometry == "spill") return before_top(*flank, 1);
  if (geometry == "rim-arc") return rim_arc(family, *flank);
  return piston_drop(family, *flank);
}

std::optional<double> derived_nominal(std::string_view geometry, const Family& family,
                                      const LiftLaw* law) {
  if (geometry == "base-depth") return base_depth(family, law);
  if (geometry == "mark") return 0;
  if (geometry == "rim-arc") return rim_arc_at_closing(family);
  if (geometry == "piston-drop") return piston_drop_at_closing(family);
  if (!law) return std::nullopt;
  if (geometry == "depth") return depth(family, *law);
  if (geometry == "spill") return spill(family, *law);
  if (geometry == "lobe-lift") return law->lift_mm(turned_past_nose_deg);
  return std::nullopt;
}

}  // namespace soot::calc
