// Engine, delivery and gears: what needs no lift law.
#include "core/calc/crank.hpp"
#include "core/calc/derived_rules.hpp"
#include "core/calc/train.hpp"

#include <initializer_list>
#include <numbers>
#include <vector>

namespace soot::calc::rules {
namespace {

constexpr double mm3_per_ml = 1000;
// Of gas oil at 15 C, kg/L: design value of the invented families; 0.82 to 0.86 is usual.
constexpr double fuel_density = 0.845;

using Values = std::vector<double>;

/// The nominal values of these figures, or nothing if one is not known.
std::optional<Values> all_of(const Family& family, std::initializer_list<const char*> keys) {
  Values values;
  for (const char* key : keys) {
    const auto value = family.nominal(key);
    if (!value) return std::nullopt;
    values.push_back(*value);
  }
  return values;
}

/// Working strokes of all cylinders a minute.
double injections_per_minute(const Family& family, double rpm) {
  return family.cylinders * rpm * pump_turns_per_crank(family.strokes);
}

double area_mm2(double diameter_mm) {
  return std::numbers::pi / 4 * diameter_mm * diameter_mm;
}

}  // namespace

DerivedParts swept_volume(const Family& family, const LiftLaw*) {
  const auto is = all_of(family, {"bore", "stroke"});
  if (!is) return {};
  return only(area_mm2((*is)[0]) * (*is)[1] / mm3_per_ml);
}

DerivedParts firing_interval(const Family& family, const LiftLaw*) {
  if (family.cylinders <= 0) return {};
  return only(firing_interval_deg(family.strokes, family.cylinders));
}

DerivedParts effective_ratio(const Family& family, const LiftLaw*) {
  const char* const shuts =
      family.strokes == 2 ? "exhaust-closes-after-bottom" : "inlet-closes-after-bottom";
  const auto is = all_of(family, {"compression-ratio", shuts, "stroke", "rod-length"});
  if (!is) return {};
  constexpr double bottom_deg = 180;
  const double left_mm = piston_drop_mm({(*is)[2], (*is)[3]}, bottom_deg - (*is)[1]);
  return only(1 + ((*is)[0] - 1) * left_mm / (*is)[2]);
}

DerivedParts rim_per_degree(const Family& family, const LiftLaw*) {
  const auto diameter_mm = family.nominal("flywheel-diameter");
  return only(diameter_mm ? std::optional{rim_arc_mm(*diameter_mm, 1)} : std::nullopt);
}

DerivedParts piston_speed(const Family& family, const LiftLaw*) {
  const auto is = all_of(family, {"stroke", "rated-speed"});
  if (!is) return {};
  return only(2 * (*is)[0] / 1000 * (*is)[1] / 60);
}

DerivedParts rated_power(const Family& family, const LiftLaw*) {
  const auto is = all_of(family, {"mean-effective-pressure", "swept-volume", "rated-speed"});
  if (!is) return {};
  constexpr double joule_per_bar_ml = 0.1;
  const double joule = (*is)[0] * (*is)[1] * joule_per_bar_ml;
  return only(joule * injections_per_minute(family, (*is)[2]) / 60 / 1000);
}

DerivedParts fuel_at_rating(const Family& family, const LiftLaw*) {
  const auto is = all_of(family, {"rated-power", "fuel-rate"});
  if (!is) return {};
  constexpr double ml_per_min = 1000.0 / 60;
  return only((*is)[0] * (*is)[1] / 1000 / fuel_density * ml_per_min);
}

DerivedParts fuel_per_injection(const Family& family, const LiftLaw*) {
  const auto is = all_of(family, {"fuel-at-rating", "rated-speed"});
  if (!is || family.cylinders <= 0) return {};
  return only((*is)[0] / injections_per_minute(family, (*is)[1]));
}

DerivedParts effective_stroke(const Family& family, const LiftLaw*) {
  const auto is = all_of(family, {"fuel-per-injection", "plunger-diameter"});
  if (!is) return {};
  return only((*is)[0] * mm3_per_ml / area_mm2((*is)[1]));
}

DerivedParts delivery_end_lift(const Family& family, const LiftLaw*) {
  const auto is = all_of(family, {"pre-stroke", "effective-stroke"});
  if (!is) return {};
  return only((*is)[0] + (*is)[1]);
}

DerivedParts stroke_per_rack(const Family& family, const LiftLaw*) {
  const auto is = all_of(family, {"helix-lead", "pinion-radius"});
  if (!is) return {};
  return only((*is)[0] / (2 * std::numbers::pi * (*is)[1]));
}

DerivedParts rack_pitch(const Family& family, const LiftLaw*) {
  const auto module_mm = family.nominal("rack-module");
  return only(module_mm ? std::optional{std::numbers::pi * *module_mm} : std::nullopt);
}

DerivedParts rack_full(const Family& family, const LiftLaw*) {
  const auto is = all_of(family, {"rack-no-delivery", "effective-stroke", "stroke-per-rack"});
  if (!is) return {};
  return only((*is)[0] + (*is)[1] / (*is)[2]);
}

DerivedParts lifter_per_flat(const Family& family, const LiftLaw*) {
  const auto pitch_mm = family.nominal("lifter-thread-pitch");
  return only(pitch_mm ? std::optional{*pitch_mm / 6} : std::nullopt);
}

DerivedParts pump_teeth(const Family& family, const LiftLaw*) {
  const auto teeth = family.nominal("crank-teeth");
  return only(teeth ? std::optional{*teeth / pump_turns_per_crank(family.strokes)} : std::nullopt);
}

DerivedParts crank_gear_radius(const Family& family, const LiftLaw*) {
  return only(crank_gear_radius_mm(family));
}

DerivedParts tooth_angle(const Family& family, const LiftLaw*) {
  return only(tooth_deg(family));
}

DerivedParts train_lash(const Family& family, const LiftLaw*) {
  const Figure* each = family.figure("backlash");
  if (each == nullptr) return {};
  const auto of = [&](const std::optional<double>& mm) {
    return mm ? lash_deg(family, *mm) : std::nullopt;
  };
  return DerivedParts{of(each->value), of(each->low), of(each->high), of(each->most)};
}

}  // namespace soot::calc::rules
