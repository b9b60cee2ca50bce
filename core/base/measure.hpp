// A number with its unit, as a person wrote it: "29.41 mm", "1.741in", "<5 bar".
#pragma once

#include "core/base/problem.hpp"
#include "core/base/unit.hpp"

#include <string>
#include <string_view>

namespace soot {

enum class Bound { none, above, below };

struct Measure {
  double value = 0;  ///< in `unit`, finite
  Unit unit = model_unit(Dimension::number);
  Bound bound = Bound::none;  ///< ">20 bar" is above, "<5 bar" below
  std::string as_written;

  /// The value in the dimension's model unit.
  double model() const { return unit.factor * value + unit.offset; }
};

/// Reads a written number: optional ">" or "<", a decimal point (a comma is refused), then a unit,
/// with or without a blank between. The unit must be there and be `dimension` (Dimension::number
/// takes none). Text is C-locale, range finite doubles. Failures have kind `use` and no place.
Result<Measure> read_measure(std::string_view text, Dimension dimension);

/// The same, whatever the dimension is; a number without a unit is Dimension::number.
Result<Measure> read_measure(std::string_view text);

/// A difference or uncertainty in `measure`'s unit, in the model unit (no offset: 5 F = 2.78 C).
double model_difference(const Measure& measure);

/// Prints a model value in a unit, with `decimals` places and the unit's name; no minus before a
/// zero.
std::string print_in(double model_value, const Unit& unit, int decimals);

}  // namespace soot
