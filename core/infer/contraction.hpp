// Internal to core/infer. A block's table T[S] = sum over the joint grades x of its causes of
// L[x] P(x) P(x explains exactly S), summed cause by cause: the innermost cause's grade first, over
// the bits met so far. Going back, a gradient in T becomes one in every L[x]. Rows of lanes
// throughout (eight quadrature nodes at once); the numbers of a cause are the same in all lanes.
#pragma once

#include "core/infer/or_table.hpp"
#include "core/infer/reports.hpp"

#include <cstddef>
#include <cstdint>
#include <vector>

namespace soot::infer {

class Contraction {
 public:
  /// `radix`: grades of each cause, sound included; `bits`: those it touches, among the block's
  /// (numbered from 0, rising). The first cause is the outermost: its grade changes slowest in x.
  Contraction(const std::vector<std::size_t>& radix, const std::vector<BitList>& bits,
              std::size_t block_bits);

  /// The numbers that depend on priors and strengths: one row a level.
  struct Numbers {
    std::vector<std::vector<double>> of_level;
  };
  /// Of one cause: prior[g] times what firing `touches` does, for each way a term may go.
  static std::vector<double> numbers_of(const GradeRow& prior, const std::vector<Touch>& touches);

  std::size_t assignments() const { return assignments_; }
  std::size_t radix(std::size_t cause) const { return levels_[cause].radix; }
  std::size_t table_size() const { return lanes << block_bits_; }
  /// Multiplications of rows.
  double work() const { return work_; }

  void forward(const double* likelihood, const Numbers& numbers, double* table) const;
  /// share[x] (rows): derivative in L[x].
  void backward(const double* gradient, const Numbers& numbers, double* share) const;

  struct Term {
    std::uint32_t row;
    std::uint32_t way;  ///< index into the numbers of a grade
  };
  struct Level {
    std::size_t radix = 1, ways = 1;
    std::size_t before = 1;  ///< assignments of the causes outside this one
    std::size_t rows_in = 1, rows_out = 1;
    std::vector<std::uint32_t> first_in, first_out;  ///< where a row's terms begin, and the end
    std::vector<Term> by_out, by_in;
  };

 private:
  std::vector<Level> levels_;  ///< outermost first
  std::size_t assignments_ = 1;
  std::size_t block_bits_ = 0;
  std::size_t largest_ = 0;  ///< numbers of the largest table between two levels
  double work_ = 0;
};

}  // namespace soot::infer
