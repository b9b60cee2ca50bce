// Engines drawn from the model itself: a history, causes with their grades and sizes, an instrument
// that may be wrong; then what a person would see and read on such an engine. Forward sampling, one
// chance after the other, from the description of the network alone; shares no code with the
// inference.
#pragma once

#include "core/infer/evidence.hpp"
#include "core/infer/network.hpp"

#include <cstdint>
#include <map>
#include <optional>
#include <random>
#include <utility>
#include <vector>

namespace soot::judges {

/// The same seed gives the same numbers anywhere.
class Dice {
 public:
  explicit Dice(std::uint64_t seed) : engine_(seed) {}

  double uniform();  ///< in [0, 1)
  bool chance(double probability) { return uniform() < probability; }
  double normal();  ///< mean 0, standard deviation 1
  /// 0..weights.size() - 1 in proportion to the weights; the last where they leave a rest of 1.
  std::size_t pick(const std::vector<double>& weights);
  std::size_t below(std::size_t count);

 private:
  std::mt19937_64 engine_;
};

class DrawnEngine {
 public:
  DrawnEngine(const infer::Network& network, Dice& dice);

  std::size_t history() const { return history_; }
  /// Present in any cylinder.
  bool has(std::size_t cause) const;
  bool instrument_is_wrong(std::size_t fault) const { return fault_ == fault; }

  /// What a person reports who looks now.
  bool report(std::size_t symptom, int cylinder);
  /// A reading by an instrument of this standard uncertainty.
  double read(std::size_t quantity, int cylinder, double sd);

 private:
  struct Present {
    std::size_t cause = 0;
    int cylinder = 0;
    std::size_t grade = 1;
    std::vector<double> size;                  ///< one an effect
    std::vector<std::vector<double>> scatter;  ///< one an effect and cylinder, 1..n
  };

  void draw_cause(std::size_t cause, int cylinder);
  bool hears(int place, int cylinder) const;
  double common(std::size_t term) const;
  double own(std::size_t term, int place) const;

  const infer::Network& net_;
  Dice& dice_;
  std::size_t history_ = 0;
  std::vector<Present> present_;
  std::optional<std::size_t> fault_;
  double offset_ = 0;
  std::map<std::pair<std::size_t, int>, double> spread_;  ///< of this quantity on this cylinder
};

}  // namespace soot::judges
