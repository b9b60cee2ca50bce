// Internal to core/infer. A group under one history: forward, it becomes one kernel over its bits
// that the main table is joined with; backward, the kernel's gradient becomes the marginals of all
// its causes. Inside, a chunk of nodes at a time, the blocks are joined one after another in the
// group's own bits; the engine-wide causes fire at the end, state by state.
#pragma once

#include "core/infer/buffer.hpp"
#include "core/infer/group.hpp"

#include <algorithm>
#include <cstddef>
#include <utility>
#include <vector>

namespace soot::infer {

/// Split by the instrument variable: `calm` = none of this group's instruments wrong, `wrong` =
/// one (empty if none of them can be).
struct Kernel {
  std::vector<double> calm, wrong;
};

/// One cause over its instances; both sums of positive parts.
struct Spread {
  double any = 0;   ///< present in some cylinder
  double none = 0;  ///< sound in every cylinder
};

/// The evidence parted by the joint states of the commons, by each block's assignments, and by
/// whether some instance of a cause is present.
struct Parts {
  std::vector<double> state;
  std::vector<std::vector<double>> assignment;
  std::vector<Spread> spread;  ///< one a cause asked for
};

/// Instances of the group whose grade is given.
using Choices = std::vector<std::pair<std::size_t, std::size_t>>;

class GroupPass {
 public:
  /// `banded`: the likelihood of the block of the open reading, once that lies within a band; it
  /// must outlive the pass.
  GroupPass(const Network& network, const Instances& instances,
            const std::vector<std::vector<Touch>>& touches, const PreparedGroup& prepared,
            const Priors& priors, const Nodes::Numbers* banded = nullptr);

  const Group& group() const { return prepared_->group; }
  const PreparedGroup& prepared() const { return *prepared_; }
  /// With all causes free; keeps what `parts` of all needs.
  Kernel kernel();
  /// Of the kernel just made. `causes` have all their instances here.
  Parts parts(const Kernel& gradient, const std::vector<std::size_t>& causes) const;
  /// With some grades given.
  Kernel kernel(const Choices& choices) const;
  Parts parts(const Kernel& gradient, const Choices& choices) const;

  bool has(std::size_t cause) const;
  /// The kernel parted in two: the instances of `cause` here all sound, or some present.
  std::pair<Kernel, Kernel> parted_kernel(std::size_t cause) const;

 private:
  /// The causes' numbers and the states that take part.
  struct Numbers {
    std::vector<Contraction::Numbers> block;
    std::vector<bool> state;
  };
  /// What each state has before its commons fire: one number a set.
  using StateTables = std::vector<std::vector<double>>;

  std::size_t own_at(std::size_t b) const { return own_at_[b]; }
  std::size_t upto_at(std::size_t b) const { return upto_at_[b]; }
  const double* weights(const Regime& regime, std::size_t chunk) const {
    return regime.weight.data() + (chunk - regime.first) * regime.states.size() * lanes;
  }
  const double* likelihood(std::size_t b, std::size_t chunk) const {
    const bool is_banded = banded_ != nullptr && b == prepared_->nodes.open->block;
    return (is_banded ? *banded_ : prepared_->nodes.likelihood[b]).data() +
           chunk * prepared_->blocks[b].assignments() * lanes;
  }
  Numbers restrict(const Choices& choices) const;
  /// One cause sound everywhere; and block by block the ways in which it is first present there,
  /// one an instance.
  struct Parted {
    Numbers sound;
    std::vector<std::vector<Contraction::Numbers>> present;
  };
  Parted part(std::size_t cause) const;
  void keep_grades(Contraction::Numbers& numbers, std::size_t b, std::size_t i, bool sound) const;
  bool takes_part(const Numbers& numbers, const Regime& regime) const;
  void join_blocks(const Numbers& numbers, std::size_t chunk, double* tables) const;
  StateTables sum_states(const Numbers& numbers, double* keep) const;
  Kernel collect(const Numbers& numbers, const StateTables& before) const;
  Kernel empty_kernel() const;
  /// Chunks in a row, and how they are dealt out: the same on any machine, so that sums are too.
  struct Slice {
    std::size_t first = 0, end = 0;
  };
  std::vector<Slice> slices() const;
  static Slice within(Slice slice, const Regime& regime) {
    return {std::max(slice.first, regime.first), std::min(slice.end, regime.first + regime.chunks)};
  }
  Parts no_parts(std::size_t causes) const;
  void add_states(const Numbers& numbers, double* keep, Slice slice, StateTables& before) const;
  Parts parts(const Kernel& gradient, const Numbers& numbers, const double* kept,
              const StateTables& before, const std::vector<std::size_t>& causes) const;
  void add_parts(const Numbers& numbers, const double* kept, const StateTables& behind, Slice slice,
                 const std::vector<Parted>& parted, Parts& out) const;
  /// `after` is used up.
  void part_blocks(const Numbers& numbers, std::size_t chunk, const double* tables,
                   std::vector<double>& after, Parts& out) const;
  void part_cylinders(const Parted& parted, std::size_t chunk, const double* tables,
                      std::vector<double> after, Spread& out) const;

  const Instances* instances_;
  const PreparedGroup* prepared_;
  const Nodes::Numbers* banded_;
  Numbers all_;
  std::vector<double> state_prior_;
  /// One row a state: (place of a bit, P(its commons fire it)).
  std::vector<std::vector<std::pair<std::size_t, double>>> firing_;
  std::vector<std::size_t> own_at_, upto_at_;  ///< where a block's tables lie in a chunk's
  std::size_t chunk_size_ = 0;
  Buffer kept_;         ///< the tables of all chunks, if they are not too many
  StateTables before_;  ///< of the kernel made last
};

}  // namespace soot::infer
