// What the rest of the job costs if nothing more is looked at: corrections one by one, the most
// mended for its price first, the run after each, handing over where that is best. A real plan
// achieves this cost exactly, so the search may stop here at any time. The rule "chance over cost"
// is the classical one for one cause (Kadane and Simon 1975; Heckerman, Breese and Rommelse 1995).
#pragma once

#include "core/plan/answer.hpp"
#include "core/plan/tables.hpp"

#include <unordered_map>
#include <vector>

namespace soot::plan {

/// Which corrections or checks may still be made: one entry each, 0 or 1.
using Left = std::vector<unsigned char>;

struct Rest {
  double cost = 0;
  Move first;
};

class Leaf {
 public:
  explicit Leaf(const Tables& tables) : tables_(tables) {}

  /// `belief` sums to 1.
  Rest operator()(const Belief& belief, const Configuration& now, const Left& corrections);

  /// Correction with its change of bits, and the run after it with its own.
  double round_trip(std::size_t correction, const Configuration& now);

 private:
  struct Prices {
    double run = 0;
    std::vector<double> round_trip;
  };
  const Prices& prices(const Configuration& now);
  std::size_t best_correction(const Prices& prices, double wrong) const;
  void set_weight(std::size_t state, double weight);
  void correct(std::size_t correction);

  const Tables& tables_;
  std::unordered_map<Configuration, Prices> prices_;
  std::vector<std::size_t> left_;  ///< scratch of one call
  Belief belief_;                  ///< likewise: weights of what still runs wrong, not rescaled
  std::vector<double> mends_;      ///< likewise: by correction, kept up to date with belief_
};

}  // namespace soot::plan
