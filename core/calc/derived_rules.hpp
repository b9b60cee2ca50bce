// The rules of derived.hpp one by one; nobody else calls them.
#pragma once

#include "core/calc/derived.hpp"

#include <cmath>

namespace soot::calc::rules {

/// A figure of a nominal value alone; none if it cannot be had.
inline DerivedParts only(std::optional<double> value) {
  if (value && !std::isfinite(*value)) value.reset();
  return DerivedParts{value, {}, {}, {}};
}

// engine
DerivedParts swept_volume(const Family& family, const LiftLaw* law);
DerivedParts firing_interval(const Family& family, const LiftLaw* law);
DerivedParts effective_ratio(const Family& family, const LiftLaw* law);
DerivedParts rim_per_degree(const Family& family, const LiftLaw* law);
DerivedParts piston_speed(const Family& family, const LiftLaw* law);
DerivedParts rated_power(const Family& family, const LiftLaw* law);
DerivedParts fuel_at_rating(const Family& family, const LiftLaw* law);

// timing and lifter
DerivedParts static_timing(const Family& family, const LiftLaw* law);
DerivedParts pre_stroke(const Family& family, const LiftLaw* law);
DerivedParts plunger_lift(const Family& family, const LiftLaw* law);
DerivedParts lift_rate(const Family& family, const LiftLaw* law);
DerivedParts piston_at_closing(const Family& family, const LiftLaw* law);
DerivedParts rim_at_closing(const Family& family, const LiftLaw* law);
DerivedParts foot_at_closing(const Family& family, const LiftLaw* law);
DerivedParts lifter_depth_base(const Family& family, const LiftLaw* law);
DerivedParts lifter_depth(const Family& family, const LiftLaw* law);
DerivedParts timing_tolerance(const Family& family, const LiftLaw* law);
DerivedParts degrees_per_tenth(const Family& family, const LiftLaw* law);
DerivedParts lifter_per_flat(const Family& family, const LiftLaw* law);
DerivedParts plunger_length_late(const Family& family, const LiftLaw* law);

// delivery and rack
DerivedParts fuel_per_injection(const Family& family, const LiftLaw* law);
DerivedParts effective_stroke(const Family& family, const LiftLaw* law);
DerivedParts delivery_end_lift(const Family& family, const LiftLaw* law);
DerivedParts delivery_angle(const Family& family, const LiftLaw* law);
DerivedParts stroke_per_rack(const Family& family, const LiftLaw* law);
DerivedParts rack_pitch(const Family& family, const LiftLaw* law);
DerivedParts rack_full(const Family& family, const LiftLaw* law);

// gears
DerivedParts pump_teeth(const Family& family, const LiftLaw* law);
DerivedParts crank_gear_radius(const Family& family, const LiftLaw* law);
DerivedParts tooth_angle(const Family& family, const LiftLaw* law);
DerivedParts train_lash(const Family& family, const LiftLaw* law);
DerivedParts train_lash_depth(const Family& family, const LiftLaw* law);

}  // namespace soot::calc::rules
