// What a person looks for on a drawn engine: some signs, what these suggest, a reading or two.
#pragma once

#include "core/workbench/network_builder.hpp"
#include "tests/calibration/sampler.hpp"

#include <set>
#include <utility>
#include <vector>

namespace soot::judges {

class Looks {
 public:
  /// Both outlive it.
  Looks(const BuiltNetwork& built, Dice& dice);

  /// All that was looked at is in it, seen or not: which sign comes next depends on nothing else.
  infer::Evidence at(DrawnEngine& engine);

 private:
  using Sign = std::pair<std::size_t, int>;  ///< symptom, cylinder

  struct SignsOf {
    std::vector<std::size_t> symptoms;
    std::vector<double> strengths;
  };

  Sign any_sign();
  Sign suggested_by(const infer::Finding& present);
  std::size_t pick(std::vector<double> weights);  ///< in proportion
  int place(infer::Scope scope);
  void gauge(DrawnEngine& engine, std::size_t quantity, infer::Evidence& evidence);

  const BuiltNetwork& built_;
  const infer::Network& net_;
  Dice& dice_;
  std::vector<std::size_t> readable_;
  std::vector<double> commonness_;  ///< of each cause, over histories and grades
  std::vector<SignsOf> signs_of_;   ///< of each cause
};

}  // namespace soot::judges
