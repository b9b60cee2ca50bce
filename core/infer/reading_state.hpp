// Internal to core/infer. The readings of one joint state of the causes as one multivariate normal,
// kept up to date while single causes change: for the sampled answer. Each present cause brings a
// mean and, for each magnitude, a column of the covariance; its inverse follows by low rank
// (Sherman, Morrison and Woodbury) and is made anew now and then.
//
// A curve is taken straight at the mean of the engine-wide shift; readings beyond an instrument's
// range are given a value within their bounds, drawn along with everything else.
#pragma once

#include "core/infer/dice.hpp"
#include "core/infer/evidence.hpp"
#include "core/infer/instances.hpp"

#include <Eigen/Dense>

#include <cstddef>
#include <vector>

namespace soot::infer {

class ReadingState {
 public:
  ReadingState(const Network& network, const Instances& instances, const Evidence& evidence);

  bool reaches(std::size_t instance) const { return reaches_[instance]; }
  /// Its grade moves a curve's working place: then a state is compared whole, by log_density().
  bool shifts_curve(std::size_t instance) const;
  double log_density() const;  ///< up to a constant
  std::size_t size() const { return readings_.size(); }
  /// Takes the instance out at its present grade (0: nothing to do).
  void remove(std::size_t instance, std::size_t grade);
  void add(std::size_t instance, std::size_t grade);
  /// Log density if the instance, now taken out, had this grade, up to a constant.
  double log_density_with(std::size_t instance, std::size_t grade) const;
  /// The same for a wrong instrument (an entry of the network), and their coming and going.
  double log_density_with_fault(std::size_t fault) const;
  void remove_fault(std::size_t fault);
  void add_fault(std::size_t fault);
  bool takes_part(std::size_t fault) const;

  /// Draws the values of the readings known by bounds only.
  void draw_bounds(Dice& dice);
  /// Makes the inverse anew for this state.
  void refresh(const std::vector<std::size_t>& grades, const std::vector<std::size_t>& faults);

 private:
  struct Change {
    Eigen::VectorXd mean;
    Eigen::MatrixXd columns;  ///< one a magnitude, times its sd
  };
  Change change_of(std::size_t instance, std::size_t grade) const;
  Change change_of_fault(std::size_t fault) const;
  void apply(const Change& change, double sign);
  double log_density_with(const Change& change) const;
  double slope(std::size_t reading, std::size_t term) const;
  void set_sound();

  const Network& network_;
  const Instances& instances_;
  std::vector<Reading> readings_;
  std::vector<bool> reaches_;   ///< one an instance
  std::vector<double> common_;  ///< one a term: mean engine-wide shift
  std::vector<bool> curved_;    ///< one a term
  Eigen::VectorXd value_, mean_;
  Eigen::MatrixXd precision_;
};

}  // namespace soot::infer
