// Internal to core/infer. Tables over sets of explained bits, and the OR-convolution that joins two
// of them: (a (x) b)[S] = sum of a[U] b[V] over all U, V with union S.
//
// Everything here is made of products and additions of numbers >= 0. The known shorter ways
// (Quickscore's signed sum over subsets of the findings, the fast subset transform and its inverse)
// subtract sums that agree in nearly all their digits: three- to tenfold loss a present finding,
// three to six digits left at fifteen. Splitting on one bit at a time costs 3^bits and loses none:
//   (a0, a1) (x) (b0, b1) = (a0 (x) b0, a1 (x) (b0 + b1) + a0 (x) b1).
//
// A table may carry many independent lanes (one a quadrature node): every entry is then a row.
#pragma once

#include "core/infer/reports.hpp"

#include <cstddef>
#include <vector>

namespace soot::infer {

class Table {
 public:
  explicit Table(std::size_t bits, std::size_t lanes = 1)
      : bits_(bits), lanes_(lanes), values_(lanes << bits, 0.0) {}

  std::size_t bits() const { return bits_; }
  std::size_t lanes() const { return lanes_; }
  std::size_t sets() const { return std::size_t{1} << bits_; }
  double* row(std::size_t set) { return values_.data() + set * lanes_; }
  const double* row(std::size_t set) const { return values_.data() + set * lanes_; }
  /// Of a table with one lane.
  double& operator[](std::size_t set) { return values_[set]; }
  double operator[](std::size_t set) const { return values_[set]; }

  void add(const Table& other);
  void scale(double factor);

 private:
  std::size_t bits_;
  std::size_t lanes_;
  std::vector<double> values_;
};

/// Positions, in the larger table, of the bits of a smaller one; rising.
using BitList = std::vector<std::size_t>;

/// out += a (x) b, b over `bits` of a.
void add_or(Table& out, const Table& a, const Table& b, const BitList& bits);
/// out += derivative of <after, a (x) b> in a.
void add_or_adjoint(Table& out, const Table& after, const Table& b, const BitList& bits);
/// out += derivative of <after, a (x) b> in b.
void add_or_gradient(Table& out, const Table& a, const Table& after, const BitList& bits);

/// A cause of this grade fires its bits (their places given by `position`).
void fire(Table& table, const std::vector<Touch>& touches, std::size_t grade,
          const BitList& position);
void fire_adjoint(Table& after, const std::vector<Touch>& touches, std::size_t grade,
                  const BitList& position);

/// Sum of products, over all entries of tables with one lane.
double dot(const Table& a, const Table& b);

}  // namespace soot::infer
