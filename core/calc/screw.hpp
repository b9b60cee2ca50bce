// A lifter's screw: turns and flats for a height, and the reading to set to while the jam nut is
// slack.
//
// turns = height / pitch, six flats to a turn: elementary. Tightening the jam nut pulls the screw
// up by the play of its thread (trade practice, no published figure).
#pragma once

#include <cmath>

namespace soot::calc {

struct ScrewTurn {
  double turns = 0;
  double flats = 0;
  bool out = true;  ///< out raises the lifter; in lowers it
};

/// To raise by `raise_mm` (negative: to lower).
inline ScrewTurn turn_for(double raise_mm, double pitch_mm) {
  const double turns = std::fabs(raise_mm) / pitch_mm;
  return ScrewTurn{turns, 6 * turns, raise_mm >= 0};
}

/// Depth to read with the nut slack, so that it is the figure when the nut is tight.
inline double slack_depth_mm(double figure_mm, double jam_rise_mm) {
  return figure_mm + jam_rise_mm;
}

}  // namespace soot::calc
