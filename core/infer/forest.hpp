// Internal to core/infer. The plain causes, joined before they touch the main table. A *leaf* is
// one instance: a kernel over the bits it can fire. Leaves of one cause, leaves with the same bits,
// small bit sets with larger ones that hold them, and pairs that are cheaper together are joined
// into *units*; those at the top act on the main table. Going back, the gradient of a unit's kernel
// becomes those of its parts, down to the grades of every instance.
#pragma once

#include "core/infer/instances.hpp"
#include "core/infer/or_table.hpp"
#include "core/infer/reports.hpp"

#include <cstddef>
#include <utility>
#include <vector>

namespace soot::infer {

struct Unit {
  BitList bits;                     ///< rising
  std::size_t instance = 0;         ///< of a leaf
  std::vector<std::size_t> parts;   ///< units, each before this one; none for a leaf
  std::vector<Join> joins, back;    ///< of the parts before (left) with part j (right), from j = 1
  std::vector<std::size_t> causes;  ///< of the leaves below, rising
  std::size_t kernel_at = 0;        ///< where its kernel lies in the pool
  /// Where the kernels of the parts up to j lie, from j = 1; the last is its own.
  std::vector<std::size_t> upto_at;

  bool is_leaf() const { return parts.empty(); }
  std::size_t sets() const { return std::size_t{1} << bits.size(); }
  bool has(std::size_t cause) const;
};

struct Forest {
  std::vector<Unit> units;
  std::vector<std::size_t> tops;
  std::size_t pool = 0;  ///< numbers of all kernels
  double work = 0;       ///< steps, there and back
};

/// `plain`: instances that touch bits and no reading, rising. At most 64 bits in all.
Forest grow_forest(const Instances& instances, const std::vector<std::size_t>& plain,
                   const std::vector<std::vector<Touch>>& touches);

/// The forest under one history.
class ForestPass {
 public:
  ForestPass(const Forest& forest, const std::vector<std::vector<Touch>>& touches,
             const Instances& instances, const Priors& priors);

  const double* kernel(std::size_t unit) const {
    return pool_.data() + forest_->units[unit].kernel_at;
  }
  /// Adds grade by grade to `grades` (one row an instance) what the gradient of a top unit's kernel
  /// makes of them.
  void back(std::size_t unit, const double* gradient, std::vector<GradeRow>& grades) const;
  /// The kernel parted in two: the cause's instances below all sound, or some present.
  std::pair<std::vector<double>, std::vector<double>> parted(std::size_t unit,
                                                             std::size_t cause) const;

 private:
  const Forest* forest_;
  const std::vector<std::vector<Touch>>* touches_;
  const Instances* instances_;
  const Priors* priors_;
  std::vector<double> pool_;
};

}  // namespace soot::infer
