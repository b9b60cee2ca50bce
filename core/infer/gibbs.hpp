// Internal to core/infer. One random walk over the joint states of history, causes and instrument,
// each drawn anew given all others (Geman and Geman, IEEE Trans. PAMI 6 (1984) 721); causes that
// could stand for one another change places. Serves where no exact answer can be had.
#pragma once

#include "core/infer/answer.hpp"
#include "core/infer/dice.hpp"
#include "core/infer/partition.hpp"
#include "core/infer/reading_state.hpp"
#include "core/infer/reports.hpp"

#include <cstddef>
#include <optional>
#include <vector>

namespace soot::infer {

/// What all walks share.
struct GibbsInput {
  const Network& network;
  const Instances& instances;
  const Evidence& evidence;  ///< repeats merged
  const Reports& reports;
  std::vector<std::size_t> histories;  ///< possible ones
  std::vector<double> log_weight;      ///< one a possible history, with its absorbed findings
  std::vector<Priors> priors;          ///< one a possible history
  std::vector<bool> is_active;         ///< one an instance: touches a bit or a reading
  /// One an active instance: others that touch what it touches.
  std::vector<std::vector<std::size_t>> rivals;
};

/// Sums over the steps of a walk of the chance that each thing had in its turn.
struct Tally {
  double steps = 0;
  std::vector<std::vector<double>> grade;
  std::vector<double> history, fault, not_listed;
  std::vector<double> any;  ///< one a cause
};

class Gibbs {
 public:
  Gibbs(const GibbsInput& input, std::uint64_t seed);

  /// One round over everything; counted if `tally` is there.
  void sweep(Tally* tally);
  const std::vector<std::size_t>& grades() const { return grade_; }

 private:
  void update(std::size_t instance, Tally* tally);
  double log_alone(std::size_t instance, std::size_t grade) const;
  void offer_place(std::size_t present);
  void update_history(Tally* tally);
  void update_fault(Tally* tally);
  void count_rest(Tally& tally) const;
  void take_out(std::size_t instance);
  void put_in(std::size_t instance, std::size_t grade);
  std::vector<double> log_chances(std::size_t instance);
  double log_bits(std::size_t instance, std::size_t grade) const;
  std::vector<std::size_t> faults() const;
  std::size_t draw(std::vector<double>& logs);

  const GibbsInput& input_;
  Dice dice_;
  ReadingState readings_;
  std::size_t history_ = 0;           ///< among the possible ones
  std::optional<std::size_t> fault_;  ///< an entry of the network
  std::vector<std::size_t> grade_;    ///< one an instance
  std::vector<double> log_quiet_;     ///< one a bit: of P(no present cause fires it), certain ones
                                      ///< left out
  std::vector<int> certain_;          ///< one a bit: present causes that fire it for certain
};

}  // namespace soot::infer
