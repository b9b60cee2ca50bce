// How what is wrong inside the engine shows at an instrument. A quantity of the knowledge names one
// of the rules below; the rule says how each engine term moves its reading, so that the pattern
// over the cylinders parts a common cause from a single one. Terms are positive when late
// (words.hpp).
//
// depth           mm from the pump's mounting face down to the lifter, at top centre: drive and
// mark
//                 through the lift law, lifter and lobe one for one
// base-depth      the same on the base circle: the lifter alone
// spill           degrees before top at which the port closes: drive and mark one for one, lifter,
//                 lobe and plunger through the lift rate at port closing
// rim-arc         the same as an arc on the flywheel's rim, mm before the top mark
// piston-drop     the same as mm of piston below the top: of true top, so that no mark is heard
// plunger-length  the plunger alone
// lobe-lift       base circle to nose: the lobe alone
// mark            how late everything reads against the mark, by two-mark top centre
#pragma once

#include "core/base/problem.hpp"
#include "core/calc/lift_law.hpp"
#include "core/model/family.hpp"

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace soot::calc {

inline constexpr std::array<std::string_view, 8> geometry_words{
    "depth",       "base-depth",     "spill",     "rim-arc",
    "piston-drop", "plunger-length", "lobe-lift", "mark"};

bool is_geometry_word(std::string_view word);

/// Shift of the quantity (model unit) by a magnitude of the term (its unit): through `points`
/// (magnitudes rising, read linearly between them) or, if there are none, magnitude x slope.
struct TermResponse {
  std::string term;
  std::vector<std::pair<double, double>> points;
  double slope = 0;

  /// Past the ends of `points` with the slope of the last piece.
  double at(double magnitude) const;
  /// The magnitude that shifts the quantity so much; nothing where it does not hear the term, or
  /// past the ends of `points`.
  std::optional<double> back(double shift) const;
};

/// Every term that the quantity hears. `law` may be null; then one lift rate stands for it, and
/// what goes through the lift fails for a family that has not even that. rim-arc needs the
/// flywheel's diameter, piston-drop stroke, rod and static timing. Fails on an unknown word.
Result<std::vector<TermResponse>> responses(std::string_view geometry, const Family& family,
                                            const LiftLaw* law);

/// What the sound engine reads, worked out from the family's other figures; nothing if they do not
/// suffice. For a figure that is missing, and to check one that is not.
std::optional<double> derived_nominal(std::string_view geometry, const Family& family,
                                      const LiftLaw* law);

}  // namespace soot::calc
