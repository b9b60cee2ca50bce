// Internal to core/infer. Tables over sets of explained bits, and the OR-convolution that joins two
// of them: (a (x) b)[S] = sum of a[U] b[V] over all U, V with union S.
//
// Everything here is made of products and additions of numbers >= 0. The known shorter ways
// (Quickscore's signed sum over subsets of the findings, the fast subset transform and its inverse)
// subtract sums that agree in nearly all their digits: three- to tenfold loss a present finding,
// three to six digits left at fifteen. Splitting on one bit at a time costs 3^bits and loses none:
//   (a0, a1) (x) (b0, b1) = (a0 (x) b0, a1 (x) (b0 + b1) + a0 (x) b1).
//
// A table has one number a set, or a row of `lanes` numbers (so many quadrature nodes at once).
#pragma once

#include <boost/container/small_vector.hpp>

#include <cstddef>
#include <vector>

namespace soot::infer {

inline constexpr std::size_t lanes = 8;

/// Numbers of bits, in the order in which they lie in a table, lowest first.
using BitList = std::vector<std::size_t>;

/// Which of the two joined tables has a bit of their union.
enum class Owner : unsigned char { left, right, both };

/// How the bits of two tables lie in the table of their union, lowest first. Bits that both have
/// lie in the same order in all three.
struct Weave {
  std::vector<Owner> owner;

  std::size_t bits() const { return owner.size(); }
  Weave turned() const;  ///< left and right exchanged
};

/// Of two rising lists; the union is rising too.
Weave weave(const BitList& left, const BitList& right);
BitList united(const BitList& left, const BitList& right);

/// Works for single numbers (width 1) or rows of lanes (width 8). The vectors are full tables:
/// width << number of bits.
class Join {
 public:
  Join(const Weave& weave, std::size_t width);

  std::size_t out_size() const { return out_.back(); }
  std::size_t left_size() const { return left_.back(); }
  std::size_t right_size() const { return right_.back(); }

  /// out = left (x) right
  void forward(double* out, const double* left, const double* right) const;
  /// grad = derivative of <after, left (x) right> in left
  void adjoint(double* grad, const double* after, const double* right) const;

  /// What the recursion needs to know; sizes of tables over the lowest n bits.
  struct Shape {
    const Owner* owner;
    const std::size_t* out;
    const std::size_t* left;
    const std::size_t* right;
    const std::size_t* shared;  ///< of the lowest n bits, how many at the bottom both have
  };

 private:
  Shape shape() const;

  /// There are many joins, of few bits mostly: no memory of their own.
  template <class T>
  using PerBit = boost::container::small_vector<T, 7>;
  PerBit<Owner> owner_;
  PerBit<std::size_t> out_, left_, right_, shared_;
  std::size_t width_;
};

/// sum of a[i] b[i]
double dot(const double* a, const double* b, std::size_t size);

/// The greatest of x (minus infinity of none), and their sum.
double greatest(const double* x, std::size_t size);
double total(const double* x, std::size_t size);

/// x[i] = exp(x[i]), to two units in the last place; 0 below -708. Vector units of g++ 12 have no
/// exp, and one number at a time it would be the dearest part of all.
void exponentials(double* x, std::size_t size);

/// The same bits on any machine: wider registers change no operation and no order (and the project
/// is compiled without contraction to fused operations).
#if defined(__x86_64__) && !defined(__SANITIZE_ADDRESS__)
#define SOOT_VECTOR_CLONES __attribute__((target_clones("avx512f", "avx2", "default")))
#else
#define SOOT_VECTOR_CLONES
#endif

}  // namespace soot::infer
