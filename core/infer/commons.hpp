// Internal to core/infer. The joint states of what a group's blocks have in common: the grades of
// its engine-wide causes and which of its instruments, if any, is wrong. Each state says how the
// engine-wide sums are distributed along the directions.
#pragma once

#include "core/infer/directions.hpp"

#include <cstddef>
#include <optional>
#include <vector>

namespace soot::infer {

struct CommonState {
  std::vector<std::size_t> grades;   ///< one a common instance of the group
  std::optional<std::size_t> fault;  ///< place in Group::faults
  std::vector<double> mean;          ///< one a direction
  std::vector<double> variance;      ///< one a direction
  std::vector<double> scatter;       ///< one a term: variance of each cylinder's own share
};

/// Leaves out states with a grade that no history allows; `possible` is one row an instance.
std::vector<CommonState> common_states(const Network& network, const Instances& instances,
                                       const Group& group, const Directions& directions,
                                       const std::vector<std::vector<bool>>& possible);

}  // namespace soot::infer
