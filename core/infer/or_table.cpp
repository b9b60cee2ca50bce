#include "core/infer/or_table.hpp"

#include <algorithm>
#include <bit>
#include <cstdint>
#include <limits>

namespace soot::infer {

namespace {

using Shape = Join::Shape;

/// a (x) b over `N` bits that both have, all in registers; `step` numbers between neighbours.
template <int N>
[[gnu::always_inline]] inline void multiply(double* out, const double* a, const double* b) {
  if constexpr (N == 0) {
    out[0] += a[0] * b[0];
  } else {
    constexpr std::size_t half = std::size_t{1} << (N - 1);
    double sum[half];
    for (std::size_t i = 0; i < half; ++i)
      sum[i] = b[i] + b[half + i];
    multiply<N - 1>(out, a, b);
    multiply<N - 1>(out + half, a + half, sum);
    multiply<N - 1>(out + half, a, b + half);
  }
}

template <int N>
[[gnu::always_inline]] inline void turn_back(double* grad, const double* after, const double* b) {
  if constexpr (N == 0) {
    grad[0] += after[0] * b[0];
  } else {
    constexpr std::size_t half = std::size_t{1} << (N - 1);
    double sum[half];
    for (std::size_t i = 0; i < half; ++i)
      sum[i] = b[i] + b[half + i];
    turn_back<N - 1>(grad, after, b);
    turn_back<N - 1>(grad, after + half, b + half);
    turn_back<N - 1>(grad + half, after + half, sum);
  }
}

/// The lowest N bits are shared: load, work in registers, store; `width` tables side by side.
template <int N, std::size_t width, bool forward>
[[gnu::always_inline]] inline void leaf(double* __restrict out, const double* __restrict a,
                                        const double* __restrict b) {
  constexpr std::size_t size = std::size_t{1} << N;
  for (std::size_t lane = 0; lane < width; ++lane) {
    double x[size], y[size], z[size];
    for (std::size_t i = 0; i < size; ++i) {
      x[i] = a[i * width + lane];
      y[i] = b[i * width + lane];
      z[i] = out[i * width + lane];
    }
    if constexpr (forward)
      multiply<N>(z, x, y);
    else
      turn_back<N>(z, x, y);
    for (std::size_t i = 0; i < size; ++i)
      out[i * width + lane] = z[i];
  }
}

template <std::size_t width>
[[gnu::always_inline]] inline double* both(double* scratch, const double* b, std::size_t half) {
  for (std::size_t i = 0; i < half; ++i)
    scratch[i] = b[i] + b[half + i];
  return scratch + half;
}

}  // namespace

// The recursions are not in the unnamed namespace: clones need a linkage.
void forward_rows(const Shape& s, std::size_t n, double* out, const double* a, const double* b,
                  double* scratch);
void adjoint_rows(const Shape& s, std::size_t n, double* grad, const double* after, const double* b,
                  double* scratch);
void forward_numbers(const Shape& s, std::size_t n, double* out, const double* a, const double* b,
                     double* scratch);
void adjoint_numbers(const Shape& s, std::size_t n, double* grad, const double* after,
                     const double* b, double* scratch);

SOOT_VECTOR_CLONES
void forward_rows(const Shape& s, std::size_t n, double* out, const double* a, const double* b,
                  double* scratch) {
  if (s.shared[n] == n && n <= 2) {
    if (n == 2) return leaf<2, lanes, true>(out, a, b);
    if (n == 1) return leaf<1, lanes, true>(out, a, b);
    return leaf<0, lanes, true>(out, a, b);
  }
  --n;
  if (s.owner[n] == Owner::left) {
    forward_rows(s, n, out, a, b, scratch);
    forward_rows(s, n, out + s.out[n], a + s.left[n], b, scratch);
  } else if (s.owner[n] == Owner::right) {
    forward_rows(s, n, out, a, b, scratch);
    forward_rows(s, n, out + s.out[n], a, b + s.right[n], scratch);
  } else {
    double* free = both<lanes>(scratch, b, s.right[n]);
    forward_rows(s, n, out, a, b, free);
    forward_rows(s, n, out + s.out[n], a + s.left[n], scratch, free);
    forward_rows(s, n, out + s.out[n], a, b + s.right[n], free);
  }
}

SOOT_VECTOR_CLONES
void adjoint_rows(const Shape& s, std::size_t n, double* grad, const double* after, const double* b,
                  double* scratch) {
  if (s.shared[n] == n && n <= 2) {
    if (n == 2) return leaf<2, lanes, false>(grad, after, b);
    if (n == 1) return leaf<1, lanes, false>(grad, after, b);
    return leaf<0, lanes, false>(grad, after, b);
  }
  --n;
  if (s.owner[n] == Owner::left) {
    adjoint_rows(s, n, grad, after, b, scratch);
    adjoint_rows(s, n, grad + s.left[n], after + s.out[n], b, scratch);
  } else if (s.owner[n] == Owner::right) {
    adjoint_rows(s, n, grad, after, b, scratch);
    adjoint_rows(s, n, grad, after + s.out[n], b + s.right[n], scratch);
  } else {
    double* free = both<lanes>(scratch, b, s.right[n]);
    adjoint_rows(s, n, grad, after, b, free);
    adjoint_rows(s, n, grad, after + s.out[n], b + s.right[n], free);
    adjoint_rows(s, n, grad + s.left[n], after + s.out[n], scratch, free);
  }
}

SOOT_VECTOR_CLONES
void forward_numbers(const Shape& s, std::size_t n, double* out, const double* a, const double* b,
                     double* scratch) {
  if (s.shared[n] == n && n <= 3) {
    if (n == 3) return leaf<3, 1, true>(out, a, b);
    if (n == 2) return leaf<2, 1, true>(out, a, b);
    if (n == 1) return leaf<1, 1, true>(out, a, b);
    return leaf<0, 1, true>(out, a, b);
  }
  if (s.right[n] == 1) {  // nothing of b left to split
    const double factor = b[0];
    for (std::size_t i = 0; i < s.out[n]; ++i)
      out[i] += a[i] * factor;
    return;
  }
  --n;
  if (s.owner[n] == Owner::left) {
    forward_numbers(s, n, out, a, b, scratch);
    forward_numbers(s, n, out + s.out[n], a + s.left[n], b, scratch);
  } else if (s.owner[n] == Owner::right) {
    forward_numbers(s, n, out, a, b, scratch);
    forward_numbers(s, n, out + s.out[n], a, b + s.right[n], scratch);
  } else {
    double* free = both<1>(scratch, b, s.right[n]);
    forward_numbers(s, n, out, a, b, free);
    forward_numbers(s, n, out + s.out[n], a + s.left[n], scratch, free);
    forward_numbers(s, n, out + s.out[n], a, b + s.right[n], free);
  }
}

SOOT_VECTOR_CLONES
void adjoint_numbers(const Shape& s, std::size_t n, double* grad, const double* after,
                     const double* b, double* scratch) {
  if (s.shared[n] == n && n <= 3) {
    if (n == 3) return leaf<3, 1, false>(grad, after, b);
    if (n == 2) return leaf<2, 1, false>(grad, after, b);
    if (n == 1) return leaf<1, 1, false>(grad, after, b);
    return leaf<0, 1, false>(grad, after, b);
  }
  if (s.right[n] == 1) {
    const double factor = b[0];
    for (std::size_t i = 0; i < s.out[n]; ++i)
      grad[i] += after[i] * factor;
    return;
  }
  if (s.left[n] == 1) {
    grad[0] += dot(after, b, s.out[n]);
    return;
  }
  --n;
  if (s.owner[n] == Owner::left) {
    adjoint_numbers(s, n, grad, after, b, scratch);
    adjoint_numbers(s, n, grad + s.left[n], after + s.out[n], b, scratch);
  } else if (s.owner[n] == Owner::right) {
    adjoint_numbers(s, n, grad, after, b, scratch);
    adjoint_numbers(s, n, grad, after + s.out[n], b + s.right[n], scratch);
  } else {
    double* free = both<1>(scratch, b, s.right[n]);
    adjoint_numbers(s, n, grad, after, b, free);
    adjoint_numbers(s, n, grad, after + s.out[n], b + s.right[n], free);
    adjoint_numbers(s, n, grad + s.left[n], after + s.out[n], scratch, free);
  }
}

SOOT_VECTOR_CLONES
double dot(const double* a, const double* b, std::size_t size) {
  double part[lanes] = {};
  std::size_t i = 0;
  for (; i + lanes <= size; i += lanes)
    for (std::size_t lane = 0; lane < lanes; ++lane)
      part[lane] += a[i + lane] * b[i + lane];
  double sum = 0;
  for (; i < size; ++i)
    sum += a[i] * b[i];
  for (const double one : part)
    sum += one;
  return sum;
}

SOOT_VECTOR_CLONES
double total(const double* x, std::size_t size) {
  double part[lanes] = {};
  std::size_t i = 0;
  for (; i + lanes <= size; i += lanes)
    for (std::size_t lane = 0; lane < lanes; ++lane)
      part[lane] += x[i + lane];
  double sum = 0;
  for (; i < size; ++i)
    sum += x[i];
  for (const double one : part)
    sum += one;
  return sum;
}

SOOT_VECTOR_CLONES
double greatest(const double* x, std::size_t size) {
  double part[lanes];
  for (double& one : part)
    one = -std::numeric_limits<double>::infinity();
  std::size_t i = 0;
  for (; i + lanes <= size; i += lanes)
    for (std::size_t lane = 0; lane < lanes; ++lane)
      part[lane] = part[lane] < x[i + lane] ? x[i + lane] : part[lane];
  for (std::size_t lane = 0; i < size; ++i, ++lane)
    part[lane] = part[lane] < x[i] ? x[i] : part[lane];
  for (std::size_t half = lanes / 2; half > 0; half /= 2)
    for (std::size_t lane = 0; lane < half; ++lane)
      part[lane] = part[lane] < part[lane + half] ? part[lane + half] : part[lane];
  return part[0];
}

SOOT_VECTOR_CLONES
void exponentials(double* x, std::size_t size) {
  constexpr double shifter = 6755399441055744.0;  // 1.5 2^52: adding it rounds to a whole number
  constexpr double log2_e = 1.4426950408889634074;
  constexpr double ln2_high = 0.693147180369123816490;
  constexpr double ln2_low = 1.90821492927058770002e-10;
  // Taylor's series of exp for |r| <= ln(2)/2: the next term is below 5e-18.
  constexpr double c[] = {1.0 / 6227020800,
                          1.0 / 479001600,
                          1.0 / 39916800,
                          1.0 / 3628800,
                          1.0 / 362880,
                          1.0 / 40320,
                          1.0 / 5040,
                          1.0 / 720,
                          1.0 / 120,
                          1.0 / 24,
                          1.0 / 6,
                          0.5,
                          1.0,
                          1.0};
  for (std::size_t i = 0; i < size; ++i) {
    const double from = x[i] < -708 ? -708.0 : x[i];
    const double whole = from * log2_e + shifter;
    const double k = whole - shifter;
    const double r = (from - k * ln2_high) - k * ln2_low;
    double sum = c[0];
    for (std::size_t j = 1; j < 14; ++j)
      sum = sum * r + c[j];
    const std::uint64_t power = (std::bit_cast<std::uint64_t>(whole) << 52) + (1023ULL << 52);
    const double result = sum * std::bit_cast<double>(power);
    x[i] = x[i] < -708 ? 0.0 : result;
  }
}

Weave Weave::turned() const {
  Weave result = *this;
  for (Owner& one : result.owner)
    if (one != Owner::both) one = one == Owner::left ? Owner::right : Owner::left;
  return result;
}

Weave weave(const BitList& left, const BitList& right) {
  Weave result;
  result.owner.reserve(left.size() + right.size());
  auto l = left.begin();
  auto r = right.begin();
  while (l != left.end() || r != right.end()) {
    const bool has_left = l != left.end() && (r == right.end() || *l <= *r);
    const bool has_right = r != right.end() && (l == left.end() || *r <= *l);
    result.owner.push_back(has_left ? (has_right ? Owner::both : Owner::left) : Owner::right);
    if (has_left) ++l;
    if (has_right) ++r;
  }
  return result;
}

BitList united(const BitList& left, const BitList& right) {
  BitList result;
  result.reserve(left.size() + right.size());
  std::set_union(left.begin(), left.end(), right.begin(), right.end(), std::back_inserter(result));
  return result;
}

Join::Join(const Weave& weave, std::size_t width)
    : owner_(weave.owner.begin(), weave.owner.end()), width_(width) {
  for (PerBit<std::size_t>* sizes : {&out_, &left_, &right_, &shared_}) {
    sizes->reserve(owner_.size() + 1);
    sizes->push_back(sizes == &shared_ ? 0 : width);
  }
  for (std::size_t n = 0; n < owner_.size(); ++n) {
    const Owner owner = owner_[n];
    out_.push_back(2 * out_.back());
    left_.push_back(left_.back() * (owner == Owner::right ? 1 : 2));
    right_.push_back(right_.back() * (owner == Owner::left ? 1 : 2));
    shared_.push_back(shared_.back() == n && owner == Owner::both ? n + 1 : shared_.back());
  }
}

Join::Shape Join::shape() const {
  return {owner_.data(), out_.data(), left_.data(), right_.data(), shared_.data()};
}

void Join::forward(double* out, const double* left, const double* right) const {
  std::fill_n(out, out_size(), 0.0);
  thread_local std::vector<double> scratch;
  if (scratch.size() < right_size()) scratch.resize(right_size());
  const auto run = width_ == lanes ? forward_rows : forward_numbers;
  run(shape(), owner_.size(), out, left, right, scratch.data());
}

void Join::adjoint(double* grad, const double* after, const double* right) const {
  std::fill_n(grad, left_size(), 0.0);
  thread_local std::vector<double> scratch;
  if (scratch.size() < right_size()) scratch.resize(right_size());
  const auto run = width_ == lanes ? adjoint_rows : adjoint_numbers;
  run(shape(), owner_.size(), grad, after, right, scratch.data());
}

}  // namespace soot::infer
