#include "core/calc/derived.hpp"

#include "core/calc/derived_rules.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <string>

namespace soot::calc {
namespace {

using namespace rules;

// A rule may use what an earlier one gave, so the order is that of the arithmetic.
constexpr std::array table{
    Derivation{"swept-volume", "bore, stroke", "L", 3, swept_volume},
    Derivation{"firing-interval", "cylinders, strokes", "deg", 0, firing_interval},
    Derivation{"effective-ratio", "compression ratio, end of the gas exchange, stroke, rod", "", 1,
               effective_ratio},
    Derivation{"rim-per-degree", "flywheel diameter", "mm/deg", 2, rim_per_degree},
    Derivation{"piston-speed", "stroke, rated speed", "m/s", 2, piston_speed},
    Derivation{"rated-power", "mean effective pressure, swept volume, rated speed", "kW", 1,
               rated_power},
    Derivation{"fuel-at-rating", "rated power, fuel rate", "L/h", 1, fuel_at_rating},
    Derivation{"static-timing", "lift before closing, lift law", "deg", 1, static_timing},
    Derivation{"pre-stroke", "static timing, lift law", "mm", 2, pre_stroke, true},
    Derivation{"plunger-lift", "lift law", "mm", 2, plunger_lift},
    Derivation{"lift-rate", "static timing, lift law", "mm/deg", 3, lift_rate},
    Derivation{"piston-at-closing", "static timing, stroke, rod", "mm", 2, piston_at_closing},
    Derivation{"rim-at-closing", "static timing, flywheel diameter", "mm", 0, rim_at_closing},
    Derivation{"foot-at-closing", "depth on the base circle, lift before closing", "mm", 2,
               foot_at_closing, true},
    Derivation{"lifter-depth-base", "foot at closing, lift before closing", "mm", 2,
               lifter_depth_base},
    Derivation{"lifter-depth", "foot at closing, static timing, lift", "mm", 2, lifter_depth},
    Derivation{"timing-tolerance", "tolerance of the depth, lift at closing", "deg", 2,
               timing_tolerance},
    Derivation{"degrees-per-tenth", "lift at closing", "deg", 2, degrees_per_tenth},
    Derivation{"lifter-per-flat", "pitch of the lifter's thread", "mm", 3, lifter_per_flat},
    Derivation{"fuel-per-injection", "fuel at rating, rated speed, cylinders", "mm3", 0,
               fuel_per_injection},
    Derivation{"effective-stroke", "fuel of an injection, plunger diameter", "mm", 2,
               effective_stroke},
    Derivation{"delivery-end-lift", "lift before closing, effective stroke", "mm", 2,
               delivery_end_lift},
    Derivation{"delivery-angle", "effective stroke, lift from closing on", "deg", 1,
               delivery_angle},
    Derivation{"stroke-per-rack", "lead of the helix, pinion", "", 3, stroke_per_rack},
    Derivation{"rack-pitch", "module of the rack", "mm", 2, rack_pitch},
    Derivation{"rack-full", "rack at no delivery, effective stroke, helix", "mm", 1, rack_full},
    Derivation{"plunger-length-late", "wear limit of the plunger, lift at closing", "deg", 1,
               plunger_length_late},
    Derivation{"pump-teeth", "teeth of the crank's gear, strokes", "", 0, pump_teeth},
    Derivation{"crank-gear-radius", "module and teeth of the crank's gear", "mm", 1,
               crank_gear_radius},
    Derivation{"tooth-angle", "teeth of the crank's gear", "deg", 2, tooth_angle},
    Derivation{"train-lash", "backlash, meshes, radius of the crank's gear", "deg", 2, train_lash},
    Derivation{"train-lash-depth", "lash of the train, lift at top", "mm", 3, train_lash_depth}};

void add(Family& family, const Derivation& rule, const DerivedParts& parts) {
  Figure figure;
  figure.key = rule.key;
  figure.unit = rule.unit.empty() ? model_unit(Dimension::number) : *find_unit(rule.unit);
  figure.step = std::pow(10.0, -rule.decimals) * figure.unit.factor;
  figure.value = parts.value;
  figure.low = parts.low;
  figure.high = parts.high;
  figure.most = parts.most;
  figure.source = "derived";
  family.figures.emplace(figure.key, std::move(figure));
}

}  // namespace

std::span<const Derivation> derivations() {
  return table;
}

const Derivation* find_derivation(std::string_view key) {
  const auto* const found = std::find_if(table.begin(), table.end(),
                                         [&](const Derivation& rule) { return rule.key == key; });
  return found == table.end() ? nullptr : found;
}

DerivedParts derive(std::string_view key, const Family& family, const LiftLaw* law) {
  const Derivation* rule = find_derivation(key);
  return rule ? rule->work(family, law) : DerivedParts{};
}

Family completed(const Family& family, const LiftLaw* law) {
  Family full = family;
  for (const Derivation& rule : table) {
    if (full.figure(std::string{rule.key})) continue;
    const DerivedParts parts = rule.work(full, law);
    if (parts.any()) add(full, rule, parts);
  }
  return full;
}

}  // namespace soot::calc
