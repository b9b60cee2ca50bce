// One engine with one fault, read by a careful hand with ordinary instruments. The readings are
// worked out from the lift of the cam itself, cylinder by cylinder, and not by the program's own
// geometry: so a wrong sign there shows here.
#pragma once

#include "core/model/job.hpp"
#include "core/workbench/engine.hpp"

#include <random>
#include <string>
#include <vector>

namespace soot::test {

/// What really is wrong, positive = late; one entry a cylinder where it differs between them.
struct Truth {
  double drive_late_deg = 0;
  double mark_before_top_deg = 0;  ///< the mark comes up so long before true top
  bool set_by_the_mark = false;    ///< the pump was timed by the wrong mark, which hides it
  std::vector<double> lifter_low_mm, lobe_worn_mm, plunger_short_mm;
};

/// The six faults by the id of their cause.
const std::vector<std::string>& six_causes();

/// A fault of that cause, at least three standard uncertainties of what shows it, on a random
/// cylinder and, where it can be either, late or early. A wrong flank is the whole lash at its
/// limit on every cylinder.
Truth draw_truth(const Engine& engine, const std::string& cause, std::mt19937_64& random);

/// Depth, base circle depth, spill angle, plunger length and cam lift of every cylinder, top centre
/// by two marks, backlash: as far as this engine has them. Each reading has the instrument's
/// scatter, each cylinder what sound ones differ by.
Job read_engine(const Engine& engine, const Truth& truth, std::mt19937_64& random);

}  // namespace soot::test
