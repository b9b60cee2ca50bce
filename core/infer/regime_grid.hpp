// Internal to core/infer. The grid of one regime: its axes, its quadratics piece by piece, and the
// nodes that can matter.
#pragma once

#include "core/infer/nodes.hpp"
#include "core/infer/sieve.hpp"
#include "core/infer/smooth_piece.hpp"
#include "core/infer/state_look.hpp"

#include <cstddef>
#include <map>
#include <optional>
#include <utility>
#include <vector>

namespace soot::infer {

/// What the instruments can tell of each quantity and cylinder at best: (quantity, precision).
using ReadingPrecision = std::vector<std::pair<std::size_t, double>>;

class RegimeGrid {
 public:
  RegimeGrid(const RegimeGrid&) = delete;  // its pieces refer to it
  RegimeGrid& operator=(const RegimeGrid&) = delete;
  /// `log_prior`: one a state. Of a regime whose ceiling turns out to be below `harmless` no more
  /// is made. All arguments but `log_prior` must outlive the grid.
  RegimeGrid(const NodeInput& input, const ReadingPrecision& readings,
             const std::vector<BlockPrior>& priors, const std::vector<CommonState>& states,
             const std::vector<double>& log_prior, double harmless);

  std::size_t axes() const { return active_.size(); }
  /// Upper bound of the log of what the regime can add to the evidence.
  double log_ceiling() const { return log_ceiling_; }
  /// Fills the sieve; `best` is the best node known elsewhere. False if the budget ran out.
  bool look(const Precision& precision, double best, double& budget);
  double best() const { return sieved_.best; }
  /// One a kept node: what it adds to the evidence. Its value in the sieve is that of the densest
  /// part of the axes.
  std::vector<double> log_masses() const;
  /// Drops nodes that together come to less than `harmless`, or less than that share of all;
  /// returns to how much. All logs.
  double trim(double harmless, double log_share);
  const std::vector<std::pair<Place, double>>& kept() const { return sieved_.kept; }

  struct Node {
    PerAxis<double> at;     ///< one an active direction
    double log_weight = 0;  ///< of the quadrature
  };
  Node node(const Place& place) const;
  /// The smooth piece that holds a place.
  SmoothPiece& piece_of(const Place& place);
  const StateLook& state_look() const { return *state_look_; }
  const std::vector<std::size_t>& active() const { return active_; }

 private:
  bool make_axes(const std::vector<double>& reach, const Precision& precision, double budget);
  void look_ahead(double harmless);
  void measure(double harmless);
  void lower_tail(std::size_t block, std::vector<double>& logs);
  double log_bound(const Place& middle, const PerAxis<double>& half, double cut, double& budget);
  bool grow(std::vector<double>& reach) const;

  const NodeInput& input_;
  const ReadingPrecision& readings_;
  const std::vector<CommonState>& states_;
  Shift base_;
  std::vector<std::size_t> active_;
  bool straight_ = true;  ///< all active directions
  std::vector<Axis> axes_;
  std::map<Place, SmoothPiece> pieces_;  ///< by the piece's number on each axis
  const std::vector<BlockPrior>& priors_;
  double log_ceiling_ = 0;
  std::vector<double> tails_;  ///< one a block and one more: what it and the later ones add at most
  double numbers_ = 0;         ///< held by all pieces
  double cell_ = 0;            ///< log size of a step in all directions
  Sieved sieved_;
  std::vector<double> logs_;
  std::optional<StateLook> state_look_;  ///< made once the active directions are known
};

/// The direction needs no axis in this state: known exactly, or left to one block's covariance.
bool is_point(const Directions& directions, const CommonState& state, std::size_t direction);

/// The narrowest Gaussian along a direction at D: what the magnitudes and the readings there can
/// give together.
double narrowest(const Directions& directions, const ReadingPrecision& readings,
                 std::size_t direction, double variance, double at);

}  // namespace soot::infer
