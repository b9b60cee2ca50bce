// Internal to core/infer. One smooth piece of a regime's grid: what the blocks say there, made as
// far as it is asked for. The likeliest assignments mostly tell that nothing in it matters.
#pragma once

#include "core/infer/block_look.hpp"
#include "core/infer/likelihood.hpp"

#include <cstddef>
#include <optional>
#include <vector>

namespace soot::infer {

/// Priors of one block's assignments.
struct BlockPrior {
  std::vector<double> log;
  std::vector<std::size_t> likeliest;  ///< a few: enough to tell that most regimes do not matter
  std::vector<double> log_likeliest;   ///< theirs
  double log_rest = 0;                 ///< of all others together
};
/// One row a block, one entry an assignment.
std::vector<BlockPrior> block_priors(const std::vector<std::vector<double>>& prior);

class SmoothPiece {
 public:
  /// The references must outlive the piece. `active`: the directions with an axis.
  SmoothPiece(const std::vector<BlockPrior>& priors, std::vector<BlockLikelihood>& likelihoods,
              const std::vector<std::size_t>& active, Shift origin);

  const Shift& origin() const { return origin_; }
  const Quadratics& whole(std::size_t block);
  /// Upper bound of what all blocks say at u, origin taken off (with `half`: within that reach of
  /// it): at u itself by a fiftieth a block too much at most. Where it is below `enough`, any upper
  /// bound below that will do. `tails`: one a block and one more, what it and the later ones can
  /// say at most. `steps`: what was looked at is added.
  double log_bound(const double* u, const double* half, const std::vector<double>& tails,
                   double enough, double& steps);
  /// Held of all that was looked at.
  double numbers() const { return numbers_; }

 private:
  struct Part {
    Quadratics few, whole;
    std::optional<BlockLook> few_look, whole_look;
  };

  const BlockLook& few_look(std::size_t block, double& steps);
  const BlockLook& whole_look(std::size_t block, double& steps);
  double numbers_of(std::size_t assignments) const;

  const std::vector<BlockPrior>& priors_;
  std::vector<BlockLikelihood>& likelihoods_;
  const std::vector<std::size_t>& active_;
  Shift origin_;
  std::vector<Part> parts_;  ///< one a block
  std::vector<double> logs_;
  double numbers_ = 0;
};

}  // namespace soot::infer
