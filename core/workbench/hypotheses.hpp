// The posterior as a short list to plan with: which causes are active now, that is, do the
// complaint, and how likely that is. Grades are merged; what they were is kept for the tables of
// the checks.
#pragma once

#include "core/workbench/inquiry.hpp"

#include <vector>

namespace soot {

/// A cause to be mended, on its cylinder (0: the engine).
struct Suspect {
  std::size_t cause = 0;  ///< index into BuiltNetwork::causes
  int cylinder = 0;
  bool operator==(const Suspect&) const = default;
};

/// One way in which the causes may really stand, and its share of a hypothesis.
struct Variant {
  double weight = 0;
  std::vector<infer::Graded> present;  ///< the silent ones too
};

struct Active {
  std::vector<std::size_t> suspects;  ///< ascending indices into Hypotheses::suspects
  double weight = 0;
  std::vector<Variant> variants;
};

struct Hypotheses {
  std::vector<Suspect> suspects;
  std::vector<Active> sets;  ///< heaviest first; their weights and `not_listed` make 1
  double not_listed = 0;     ///< chance that no listed cause does the complaint
};

/// From the most probable explanations by causes that can do the complaint. An explanation with
/// several causes is split by which of them are active (each fires the complaint with its own
/// strength). While the complaint does not stand (a correction may have cured it), the sound engine
/// is among the sets: nothing active. Without a complaint: by causes that move what was read, each
/// active where it is present.
Result<Hypotheses> hypothesise(const Inquiry& inquiry, const std::vector<Observation>& complaints);

}  // namespace soot
