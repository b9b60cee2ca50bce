// Internal to core/infer. The joint states of what a group's blocks have in common: the grades of
// its engine-wide causes and which of its instruments, if any, is wrong. Each state says how the
// engine-wide sums are distributed along the directions.
#pragma once

#include "core/infer/directions.hpp"

#include <cstddef>
#include <optional>
#include <utility>
#include <vector>

namespace soot::infer {

struct CommonState {
  std::vector<std::size_t> grades;   ///< one a common instance of the group
  std::optional<std::size_t> fault;  ///< place in Group::faults
  std::vector<double> mean;          ///< one a direction
  std::vector<double> variance;      ///< one a direction
  std::vector<double> scatter;       ///< one a term: variance of each cylinder's own share
};

/// What one grade, or one wrong instrument, adds to a state.
struct Moves {
  struct Shift {
    std::size_t direction;
    double mean, variance;
  };
  std::vector<Shift> shifts;
  std::vector<std::pair<std::size_t, double>> scatter;  ///< term and variance
};

/// All states but those with a grade that no history allows. There may be very many: each is made
/// when it is asked for.
class Commons {
 public:
  /// `possible`: one row an instance.
  Commons(const Network& network, const Instances& instances, const Group& group,
          const Directions& directions, const std::vector<std::vector<bool>>& possible);

  std::size_t size() const { return codes_.size(); }
  /// Into a state whose memory is used again.
  void make(std::size_t i, CommonState& state) const;
  std::vector<CommonState> make(const std::vector<std::size_t>& which) const;
  /// Of state i alone: its grade of the common at that place, its fault.
  std::size_t grade_of(std::size_t i, std::size_t place) const {
    return grades_.of(codes_[i] % grades_.total(), place);
  }
  std::optional<std::size_t> fault_of(std::size_t i) const;
  const Grades& grades() const { return grades_; }
  std::size_t faults() const { return of_fault_.size(); }

 private:
  std::size_t directions_, terms_;
  Grades grades_;
  std::vector<std::vector<Moves>> of_grade_;  ///< [common][grade]
  std::vector<Moves> of_fault_;
  std::vector<std::size_t> codes_;  ///< fault (0: none), then the joint grades
};

}  // namespace soot::infer
