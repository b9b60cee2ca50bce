// What bounds a lifter's correction: tolerance, the room over the plunger, the cam's flank, and the
// size of error that no lifter has.
#pragma once

#include "core/calc/flank.hpp"
#include "core/calc/worksheet.hpp"

#include <optional>
#include <string>
#include <vector>

namespace soot::calc {

/// One cylinder's depth against the figure.
struct LifterFound {
  int cylinder = 0;
  Unit unit = model_unit(Dimension::length);
  std::size_t readings = 1;
  double depth_mm = 0;    ///< their mean
  double between_mm = 0;  ///< from the least to the greatest
  double error_mm = 0;    ///< positive: too deep, late
  double expanded_mm = 0;
  double best_mm = 0;  ///< the same, were it read and come up to over and over
  std::string mostly;  ///< its largest part
};

struct LifterLimits {
  Given figure;
  std::optional<double> tolerance_mm, head_clearance_mm, pitch_mm, base_figure_mm;
  std::vector<Given> bases;  ///< depths on the base circle
  double absurd_mm = 0;      ///< an error that no lifter has

  /// Takes its inputs from the sheet; fails on impossible ones.
  static Result<LifterLimits> read(Worksheet& sheet, const Ask& ask);

  /// Why nothing is to be turned on this cylinder, if so.
  std::optional<Problem> refuse(const LifterFound& found, const std::optional<Flank>& flank) const;

  /// The lifter itself is so low, and not the cam behind it.
  bool low_on_base_too(const LifterFound& found) const;
};

/// To a hundredth of a millimetre in the person's unit.
std::string depth_words(double value_mm, const Unit& unit);

}  // namespace soot::calc
