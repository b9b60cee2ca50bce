// Internal to core/infer. The grid of one regime: its axes, its quadratics piece by piece, and the
// nodes that can matter.
#pragma once

#include "core/infer/block_look.hpp"
#include "core/infer/nodes.hpp"
#include "core/infer/sieve.hpp"

#include <cstddef>
#include <map>
#include <utility>
#include <vector>

namespace soot::infer {

/// What the instruments can tell of each quantity and cylinder at best: (quantity, precision).
using ReadingPrecision = std::vector<std::pair<std::size_t, double>>;

/// Priors of one block's assignments, as NodeInput::prior.
struct BlockPrior {
  std::vector<double> log;
  std::vector<std::size_t> likeliest;  ///< a few: enough to tell that most regimes do not matter
  double log_rest = 0;                 ///< of all others together
};
std::vector<BlockPrior> block_priors(const NodeInput& input);

class RegimeGrid {
 public:
  /// Of a regime whose ceiling turns out to be below `harmless` no more is made. All arguments
  /// must outlive the grid.
  RegimeGrid(const NodeInput& input, const ReadingPrecision& readings,
             const std::vector<BlockPrior>& priors, const std::vector<std::size_t>& states,
             double harmless);

  std::size_t axes() const { return active_.size(); }
  /// Upper bound of the log of what the regime can add to the evidence.
  double log_ceiling() const { return log_ceiling_; }
  /// Fills the sieve; `best` is the best node known elsewhere. False if the budget ran out.
  bool look(const Precision& precision, double best, double& budget);
  double best() const { return sieved_.best; }
  const std::vector<std::pair<Place, double>>& kept() const { return sieved_.kept; }

  struct Node {
    std::vector<double> at;  ///< one an active direction
    double log_weight = 0;   ///< of the quadrature
  };
  Node node(const Place& place) const;
  /// The smooth piece that holds a place: its quadratics, one a block, and its origin.
  struct Piece {
    Shift origin;
    std::vector<Quadratics> blocks;
    std::vector<BlockLook> looks;  ///< one a block, for the sieve; made when it asks
  };
  Piece& piece_of(const Place& place);
  /// Log density of the i-th state's engine-wide sums at a node (within `half` of it: the
  /// greatest).
  double log_density(std::size_t i, const std::vector<double>& at, const double* half) const;
  const std::vector<std::size_t>& active() const { return active_; }

 private:
  bool make_axes(const std::vector<double>& reach, const Precision& precision, double budget);
  void look_ahead(double harmless);
  void measure(double harmless);
  void lower_tail(std::size_t block, std::vector<double>& logs);
  Piece make_piece(const Shift& origin) const;
  double piece_numbers() const;
  double log_bound(const Place& middle, const std::vector<double>& half, double cut,
                   double& budget);
  bool grow(std::vector<double>& reach) const;
  const CommonState& state(std::size_t i) const { return input_.states[states_[i]]; }

  const NodeInput& input_;
  const ReadingPrecision& readings_;
  const std::vector<std::size_t>& states_;
  Shift base_;
  std::vector<std::size_t> active_;
  std::vector<Axis> axes_;
  std::map<std::vector<std::size_t>, Piece> pieces_;  ///< by the piece's number on each axis
  const std::vector<BlockPrior>& priors_;
  double log_ceiling_ = 0;
  std::vector<double> tails_;  ///< one a block and one more: what it and the later ones add at most
  double cell_ = 0;            ///< log size of a step in all directions
  Sieved sieved_;
  std::vector<double> logs_;
  std::vector<double> state_logs_, log_peaks_;  ///< one a state: prior; density at its mean
};

/// The direction needs no axis in this state: known exactly, or left to one block's covariance.
bool is_point(const Directions& directions, const CommonState& state, std::size_t direction);

/// The narrowest Gaussian along a direction at D: what the magnitudes and the readings there can
/// give together.
double narrowest(const Directions& directions, const ReadingPrecision& readings,
                 std::size_t direction, double variance, double at);

}  // namespace soot::infer
