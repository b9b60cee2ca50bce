// Figures that follow from others: computed, never only typed. One table of rules, so that what a
// family leaves out is worked out, and what it gives is compared with the rest.
//
// Where the family has a lift law, whatever depends on the lift goes through it; else through its
// one lift rate. Formulas: swept volume, gears, thread, rim: elementary; piston: crank.hpp; lift:
// flank.hpp; rack: helix.hpp; power = mean effective pressure x swept volume x working strokes a
// second; fuel of a stroke = fuel at rating / strokes; the effective ratio takes the share of the
// stroke that is left when the inlet valve, in a two-stroke the exhaust port, has shut.
#pragma once

#include "core/calc/lift_law.hpp"
#include "core/model/family.hpp"

#include <optional>
#include <span>
#include <string_view>

namespace soot::calc {

/// The parts of a figure that a rule gives: only the nominal value, or the same three as its
/// source.
struct DerivedParts {
  std::optional<double> value, low, high, most;
  bool any() const { return value || low || high || most; }
};

struct Derivation {
  std::string_view key;   ///< of the figure
  std::string_view from;  ///< what it follows from, for people: "bore, stroke"
  std::string_view unit;  ///< to print it in; "" = a plain number
  int decimals;
  DerivedParts (*work)(const Family& family, const LiftLaw* law);
  bool fills_only = false;  ///< another rule reads the same relation, and is the one to compare by
};

std::span<const Derivation> derivations();
const Derivation* find_derivation(std::string_view key);

/// What the family's other figures make of this one, model units. Empty where they do not suffice,
/// or no rule is known.
DerivedParts derive(std::string_view key, const Family& family, const LiftLaw* law);

/// The family with every figure added that can be worked out, source "derived"; what it gives
/// itself stays.
Family completed(const Family& family, const LiftLaw* law);

}  // namespace soot::calc
