// Units as they stand on gauges, feelers and dipsticks. Every dimension has one model unit in which
// the program counts (mm, deg, bar, rpm, C, mL, ...); what a person typed is kept beside it.
//
// Factors are exact by definition (1 in = 25.4 mm; 1 psi = 6.894757 kPa; 1 kgf = 9.80665 N;
// conventional mm Hg = 133.322387 Pa and mm H2O = 9.80665 Pa): NIST SP 811 (2008), appendix B.8.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace soot {

enum class Dimension {
  length,       // mm
  angle,        // deg
  pressure,     // bar
  speed,        // rpm
  temperature,  // C
  volume,       // mL
  flow,         // mL/min
  time,         // s
  force,        // N
  voltage,      // V
  current,      // A
  density,      // kg/L
  count,        // 1/min: drops, bubbles or strokes a minute
  share,        // %
  lift_rate,    // mm/deg
  power,        // kW
  velocity,     // m/s
  fuel_rate,    // g/kWh
  number,       // plain count, no unit to write
};

struct Unit {
  std::string_view name;  ///< as printed
  Dimension dimension;
  double factor;  ///< model value = factor * value + offset
  double offset;
  bool operator==(const Unit&) const = default;
};

/// The unit of a written word ("mm", "in", "psi", "mm Hg", "drops/min", ...), blanks ignored,
/// capitals respected only where they part two units.
std::optional<Unit> find_unit(std::string_view word);

/// The unit in which the program counts a dimension.
Unit model_unit(Dimension dimension);

/// Every unit of a dimension, the model unit first, for messages ("expected mm, in, thou").
std::string units_of(Dimension dimension);

std::vector<std::string> unit_words();

/// "a length", "an angle", ... for messages.
std::string_view name_of(Dimension dimension);

}  // namespace soot
