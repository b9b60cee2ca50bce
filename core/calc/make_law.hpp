// Lift laws by name, so that a family written as text can have one: the name and the coefficients
// stand in its [lift] table. The list of names and keys is exported for whoever reads such a table.
//
// constant-rate  rate (mm a crank degree), closing, closing-lift, total
// tangent-flank  base-radius, roller-radius, closing, closing-lift, total
// eccentric      eccentricity, closing, closing-lift
// `closing` is crank degrees before firing top centre (positive), `closing-lift` the lift above the
// base circle at which the port closes. The cam turns at half the crank's speed, in a two-stroke at
// the crank's.
#pragma once

#include "core/base/problem.hpp"
#include "core/base/unit.hpp"
#include "core/calc/lift_law.hpp"
#include "core/model/family.hpp"

#include <memory>
#include <span>
#include <string_view>

namespace soot::calc {

struct LawKey {
  std::string_view key;
  Dimension dimension;
};

struct LawForm {
  std::string_view name;
  std::span<const LawKey> keys;  ///< all needed
};

/// Every named law. `own`, the plugin's function, is not among them.
std::span<const LawForm> law_forms();

/// The form of that name, or nothing.
const LawForm* find_law_form(std::string_view name);

/// Fails on an unknown name, a missing, unknown or impossible coefficient, each at the spec's
/// place.
Result<std::unique_ptr<LiftLaw>> make_law(const LawSpec& spec, const Family& family);

}  // namespace soot::calc
