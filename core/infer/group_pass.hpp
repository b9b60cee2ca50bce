// Internal to core/infer. A group under one history: forward, it becomes a kernel over its bits
// that the main table is joined with; backward, the kernel's gradient becomes the marginals of all
// its causes. Inside, node by node (many lanes at once), the blocks are joined one after another.
#pragma once

#include "core/infer/group.hpp"
#include "core/infer/table.hpp"

#include <cstddef>
#include <utility>
#include <vector>

namespace soot::infer {

/// Split by the instrument variable: `calm` = none of this group's instruments wrong, `wrong` =
/// one.
struct Kernel {
  Table calm;
  Table wrong;
};

/// Unnormalised probabilities.
struct Numerators {
  std::vector<std::vector<double>> grade;  ///< one row an instance
  std::vector<double> fault;               ///< one an entry of Network::instrument_faults
};

/// Instances of the group whose grade is given.
using Choices = std::vector<std::pair<std::size_t, std::size_t>>;

/// The evidence parted by the joint states of the commons, and by each block's assignments.
struct Parts {
  std::vector<double> state;
  std::vector<std::vector<double>> assignment;
};

class GroupPass {
 public:
  GroupPass(const Network& network, const Instances& instances,
            const std::vector<std::vector<Touch>>& touches, const PreparedGroup& prepared,
            const Priors& priors);

  const Group& group() const { return prepared_.group; }
  Kernel kernel(const Choices& choices) const;
  /// The kernel parted in two: the instances of `cause` here all sound, or some present.
  std::pair<Kernel, Kernel> parted_kernel(std::size_t cause) const;
  bool has(std::size_t cause) const;
  Parts parts(const Kernel& gradient, const Choices& choices) const;
  void backward(const Kernel& gradient, Numerators& out) const;

  std::size_t grade_in_state(std::size_t state, std::size_t common) const {
    return prepared_.states[state].grades[common];
  }
  const Grades& grades(std::size_t block) const { return grades_[block]; }

 private:
  /// Which states and assignments take part.
  struct Filter {
    std::vector<bool> state;
    std::vector<std::vector<bool>> assignment;
  };

  Filter filter_of(const Choices& choices) const;
  bool has_states(const Chunk& chunk, const Filter& filter) const;
  Table start(const Chunk& chunk, const Filter& filter) const;
  Table block_table(std::size_t block, const Chunk& chunk, const Filter& filter) const;
  bool block_has(std::size_t block, std::size_t cause) const;
  void add_block(std::size_t block, const Chunk& chunk, const Table& gradient, const Filter& filter,
                 Parts& out) const;
  void add_states(const Chunk& chunk, const Table& after, const Filter& filter, Parts& out) const;
  Kernel empty_kernel() const;
  void collect(Kernel& kernel, const Chunk& chunk, const Table& table) const;
  const double* weights(const Chunk& chunk, std::size_t state) const;

  const Instances& instances_;
  const PreparedGroup& prepared_;
  std::vector<Grades> grades_;                ///< one a block
  std::vector<std::vector<Table>> explains_;  ///< [block][assignment]: prior times P(it explains S)
  /// One row a state: sets of the group's bits it explains, with prior times probability.
  std::vector<std::vector<std::pair<std::size_t, double>>> state_explains_;
};

}  // namespace soot::infer
