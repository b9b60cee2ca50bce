// Internal to core/infer. One further reading in several bands. It is prepared once, as a reading
// that may be anything: that tells nothing, but lays the nodes and the tables for all bands. A band
// then only weighs the assignments of the reading's own block by their chance of a value in it. All
// is added, nothing subtracted, so that a rare band is as exact as a likely one.
#pragma once

#include "core/infer/pass.hpp"
#include "core/infer/task.hpp"

#include <memory>
#include <optional>
#include <utility>
#include <vector>

namespace soot::infer {

class Bands {
 public:
  /// `reading`: its `lower` and `upper` do not matter. `before`: the task of the evidence as it
  /// stands. Nothing where that is too much work, or where its block has another censored reading
  /// or the evidence one that may be anything. The network must outlive it.
  static std::optional<Bands> of(const Network& network, const Evidence& evidence, Reading reading,
                                 const Limits& limits, const Task& before);

  /// Nothing where the band is too rare for what the tolerance gave up. `log_whole`: log
  /// probability of the evidence without the reading.
  std::optional<Outcome> outcome(double lower, double upper, double log_whole) const;

 private:
  Bands(Task task, const Limits& limits)
      : task_(std::make_unique<const Task>(std::move(task))), by_cause_(limits.by_cause) {}

  std::unique_ptr<const Task> task_;  ///< the passes refer to it
  bool by_cause_;
  std::vector<Pass> open_;  ///< one a possible history
  std::size_t group_ = 0;   ///< of the reading
};

}  // namespace soot::infer
