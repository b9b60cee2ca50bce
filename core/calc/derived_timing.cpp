// Timing and lifter: what goes through the lift law, or the one lift rate that stands for it.
#include "core/calc/derived_rules.hpp"
#include "core/calc/flank.hpp"
#include "core/calc/geometry.hpp"

namespace soot::calc::rules {
namespace {

std::optional<Flank> flank_of(const Family& family, const LiftLaw* law) {
  const Result<Flank> flank = Flank::of(family, law);
  return flank ? std::optional{*flank} : std::nullopt;
}

/// From port closing to the top, mm.
std::optional<double> lift_to_top_mm(const Family& family, const LiftLaw* law) {
  const auto before_top_deg = family.nominal("static-timing");
  if (!before_top_deg) return std::nullopt;
  if (law) return law->lift_mm(0) - law->lift_mm(-*before_top_deg);
  const auto rate = family.nominal("lift-rate");
  return rate ? std::optional{*rate * *before_top_deg} : std::nullopt;
}

std::optional<double> minus(std::optional<double> a, std::optional<double> b) {
  return a && b ? std::optional{*a - *b} : std::nullopt;
}

std::optional<double> plus(std::optional<double> a, std::optional<double> b) {
  return a && b ? std::optional{*a + *b} : std::nullopt;
}

}  // namespace

DerivedParts static_timing(const Family& family, const LiftLaw* law) {
  return only(law ? derived_nominal("spill", family, law) : std::nullopt);
}

DerivedParts pre_stroke(const Family& family, const LiftLaw* law) {
  const auto before_top_deg = family.nominal("static-timing");
  if (!law || !before_top_deg) return {};
  return only(law->lift_mm(-*before_top_deg));
}

DerivedParts plunger_lift(const Family& family, const LiftLaw* law) {
  return only(law ? derived_nominal("lobe-lift", family, law) : std::nullopt);
}

DerivedParts lift_rate(const Family& family, const LiftLaw* law) {
  const auto flank = law ? flank_of(family, law) : std::nullopt;
  return only(flank ? std::optional{flank->rate_at_closing()} : std::nullopt);
}

DerivedParts piston_at_closing(const Family& family, const LiftLaw* law) {
  return only(derived_nominal("piston-drop", family, law));
}

DerivedParts rim_at_closing(const Family& family, const LiftLaw* law) {
  return only(derived_nominal("rim-arc", family, law));
}

DerivedParts foot_at_closing(const Family& family, const LiftLaw*) {
  return only(minus(family.nominal("lifter-depth-base"), family.nominal("pre-stroke")));
}

DerivedParts lifter_depth_base(const Family& family, const LiftLaw*) {
  return only(plus(family.nominal("foot-at-closing"), family.nominal("pre-stroke")));
}

// From the foot, or, where that is not given, from the base circle.
DerivedParts lifter_depth(const Family& family, const LiftLaw* law) {
  auto foot_mm = family.nominal("foot-at-closing");
  if (!foot_mm) foot_mm = foot_at_closing(family, law).value;
  return only(minus(foot_mm, lift_to_top_mm(family, law)));
}

DerivedParts timing_tolerance(const Family& family, const LiftLaw* law) {
  const Figure* depth = family.figure("lifter-depth");
  const auto flank = flank_of(family, law);
  if (!flank || !depth || !depth->tolerance) return {};
  return only(*depth->tolerance / flank->rate_at_closing());
}

DerivedParts degrees_per_tenth(const Family& family, const LiftLaw* law) {
  constexpr double tenth_mm = 0.1;
  const auto flank = flank_of(family, law);
  return only(flank ? std::optional{tenth_mm / flank->rate_at_closing()} : std::nullopt);
}

DerivedParts plunger_length_late(const Family& family, const LiftLaw* law) {
  const Figure* length = family.figure("plunger-length");
  const auto flank = flank_of(family, law);
  if (!flank || !length || !length->nominal() || !length->least) return {};
  return only(flank->late_for_low_deg(*length->nominal() - *length->least));
}

DerivedParts delivery_angle(const Family& family, const LiftLaw* law) {
  const auto flank = flank_of(family, law);
  const auto stroke_mm = family.nominal("effective-stroke");
  if (!flank || !stroke_mm) return {};
  return only(flank->late_for_low_deg(*stroke_mm));
}

DerivedParts train_lash_depth(const Family& family, const LiftLaw* law) {
  const Figure* train = family.figure("train-lash");
  const auto flank = flank_of(family, law);
  if (!flank || train == nullptr) return {};
  const auto of = [&](const std::optional<double>& deg) {
    return deg ? std::optional{flank->depth_shift_mm(*deg)} : std::nullopt;
  };
  return DerivedParts{of(train->value), of(train->low), of(train->high), of(train->most)};
}

}  // namespace soot::calc::rules
