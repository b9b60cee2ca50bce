// Whether the program means its percentages: of all causes that it gave 30 %, three in ten should
// be there. Held against engines drawn from its own model, so this judges the computation, not what
// the knowledge says.
#pragma once

#include "core/infer/network.hpp"
#include "core/workbench/engine.hpp"

#include <array>
#include <cstdint>
#include <string>
#include <vector>

namespace soot::judges {

/// What the program said of one cause of a job, and how it was.
struct Entry {
  double said = 0;
  bool is_there = false;
};

struct Band {
  std::size_t entries = 0;
  double said = 0;     ///< sum of the probabilities given
  double there = 0;    ///< how many of them were there
  double squares = 0;  ///< sum over jobs of the square of (there - said)
  double mean_said() const;
  double share_there() const;
  double gap() const;
  /// Of the gap, if the percentages are meant: the entries of one job hang together, jobs do not.
  double standard_error() const;
  bool judged() const { return entries >= least_entries; }
  static constexpr std::size_t least_entries = 400;
};

/// Of width 0.2 each.
struct Calibration {
  std::array<Band, 5> bands;
  std::size_t jobs = 0;
  std::size_t too_large = 0;  ///< jobs drawn besides, which the inference refused

  void add_job(const std::vector<Entry>& entries);
  void add(const Calibration& other);
  /// Over the judged bands; 0 if there is none.
  double worst_gap() const;
};

/// `jobs` jobs on this engine: some signs looked for, what they suggest looked for next, a reading
/// or two taken, the history told in half of them. Only jobs with at least one sign present are
/// asked. What is left out, and what is looked for next, depends on the evidence alone, which
/// leaves the answers calibrated; so does leaving out, and counting, those that the inference finds
/// too large. Every cause by "in any cylinder" is an entry, and every instrument that was read.
/// Fails if the network cannot be built, or if more jobs are refused than asked for.
Result<Calibration> calibrate(const Engine& engine, std::size_t jobs, std::uint64_t seed);

}  // namespace soot::judges
