#include "core/infer/contraction.hpp"

#include <algorithm>

namespace soot::infer {

namespace {

/// What a bit of the firing cause does to a row: stays unexplained, becomes explained, was so.
enum Way : std::uint32_t { quiet = 0, fires = 1, already = 2 };

std::size_t power_of_three(std::size_t n) {
  std::size_t result = 1;
  while (n-- > 0)
    result *= 3;
  return result;
}

/// In which order the bits come to lie: those met by the inner causes, then the new ones on top.
struct Layout {
  BitList bits;

  std::size_t place(std::size_t bit) const {
    return static_cast<std::size_t>(std::find(bits.begin(), bits.end(), bit) - bits.begin());
  }
};

/// Terms of one level as (row in, row out, way).
void add_terms(Contraction::Level& level, const Layout& in, const Layout& out, const BitList& own,
               bool is_last) {
  struct Pair {
    std::uint32_t in, out, way;
  };
  std::vector<Pair> pairs;
  for (std::size_t row = 0; row < level.rows_in; ++row) {
    std::vector<Pair> here{{static_cast<std::uint32_t>(row), static_cast<std::uint32_t>(row), 0}};
    std::uint32_t digit = 1;
    for (const std::size_t bit : own) {
      const std::size_t place = out.place(bit);
      const bool was = in.place(bit) < in.bits.size() && (row >> place & 1) != 0;
      std::vector<Pair> next;
      for (const Pair& pair : here) {
        if (was) {
          next.push_back({pair.in, pair.out, pair.way + already * digit});
        } else {
          next.push_back({pair.in, pair.out, pair.way + quiet * digit});
          next.push_back({pair.in, pair.out | (1U << place), pair.way + fires * digit});
        }
      }
      here = std::move(next);
      digit *= 3;
    }
    pairs.insert(pairs.end(), here.begin(), here.end());
  }
  if (is_last) {  // the block's table has its bits in rising order
    for (Pair& pair : pairs) {
      std::uint32_t sorted = 0;
      for (std::size_t place = 0; place < out.bits.size(); ++place)
        if ((pair.out >> place & 1U) != 0) sorted |= 1U << out.bits[place];
      pair.out = sorted;
    }
  }
  const auto list = [&](std::size_t rows, auto key, auto other, std::vector<std::uint32_t>& first,
                        std::vector<Contraction::Term>& terms) {
    first.assign(rows + 1, 0);
    for (const Pair& pair : pairs)
      ++first[key(pair) + 1];
    for (std::size_t row = 0; row < rows; ++row)
      first[row + 1] += first[row];
    terms.resize(pairs.size());
    std::vector<std::uint32_t> at(first.begin(), first.end() - 1);
    for (const Pair& pair : pairs)
      terms[at[key(pair)]++] = {other(pair), pair.way};
  };
  const auto row_in = [](const Pair& pair) { return pair.in; };
  const auto row_out = [](const Pair& pair) { return pair.out; };
  list(level.rows_out, row_out, row_in, level.first_out, level.by_out);
  list(level.rows_in, row_in, row_out, level.first_in, level.by_in);
}

template <std::size_t radix>
[[gnu::always_inline]] inline void sum_grades(const Contraction::Level& level,
                                              const double* numbers, const double* __restrict in,
                                              double* __restrict out) {
  for (std::size_t p = 0; p < level.before; ++p) {
    const double* from = in + p * radix * level.rows_in * lanes;
    for (std::size_t row = 0; row < level.rows_out; ++row, out += lanes) {
      double sum[lanes] = {};
      for (std::uint32_t t = level.first_out[row]; t < level.first_out[row + 1]; ++t) {
        const Contraction::Term term = level.by_out[t];
        for (std::size_t g = 0; g < radix; ++g) {
          const double number = numbers[g * level.ways + term.way];
          const double* source = from + (g * level.rows_in + term.row) * lanes;
          for (std::size_t lane = 0; lane < lanes; ++lane)
            sum[lane] += number * source[lane];
        }
      }
      for (std::size_t lane = 0; lane < lanes; ++lane)
        out[lane] = sum[lane];
    }
  }
}

template <std::size_t radix>
[[gnu::always_inline]] inline void part_grades(const Contraction::Level& level,
                                               const double* numbers,
                                               const double* __restrict gradient,
                                               double* __restrict out) {
  for (std::size_t p = 0; p < level.before; ++p) {
    const double* from = gradient + p * level.rows_out * lanes;
    double* to = out + p * radix * level.rows_in * lanes;
    for (std::size_t row = 0; row < level.rows_in; ++row) {
      double sum[radix][lanes] = {};
      for (std::uint32_t t = level.first_in[row]; t < level.first_in[row + 1]; ++t) {
        const Contraction::Term term = level.by_in[t];
        const double* source = from + term.row * lanes;
        for (std::size_t g = 0; g < radix; ++g) {
          const double number = numbers[g * level.ways + term.way];
          for (std::size_t lane = 0; lane < lanes; ++lane)
            sum[g][lane] += number * source[lane];
        }
      }
      for (std::size_t g = 0; g < radix; ++g)
        for (std::size_t lane = 0; lane < lanes; ++lane)
          to[(g * level.rows_in + row) * lanes + lane] = sum[g][lane];
    }
  }
}

}  // namespace

void run_level_forward(const Contraction::Level& level, const double* numbers, const double* in,
                       double* out);
void run_level_backward(const Contraction::Level& level, const double* numbers,
                        const double* gradient, double* out);

SOOT_VECTOR_CLONES
void run_level_forward(const Contraction::Level& level, const double* numbers, const double* in,
                       double* out) {
  if (level.radix == 2) return sum_grades<2>(level, numbers, in, out);
  if (level.radix == 3) return sum_grades<3>(level, numbers, in, out);
  if (level.radix == 4) return sum_grades<4>(level, numbers, in, out);
  sum_grades<5>(level, numbers, in, out);
}

SOOT_VECTOR_CLONES
void run_level_backward(const Contraction::Level& level, const double* numbers,
                        const double* gradient, double* out) {
  if (level.radix == 2) return part_grades<2>(level, numbers, gradient, out);
  if (level.radix == 3) return part_grades<3>(level, numbers, gradient, out);
  if (level.radix == 4) return part_grades<4>(level, numbers, gradient, out);
  part_grades<5>(level, numbers, gradient, out);
}

Contraction::Contraction(const std::vector<std::size_t>& radix, const std::vector<BitList>& bits,
                         std::size_t block_bits)
    : levels_(radix.size()), block_bits_(block_bits) {
  Layout in;
  for (const std::size_t one : radix)
    assignments_ *= one;
  std::size_t before = assignments_;
  largest_ = assignments_ * lanes;
  for (std::size_t i = radix.size(); i-- > 0;) {
    Level& level = levels_[i];
    Layout out = in;
    for (const std::size_t bit : bits[i])
      if (out.place(bit) == out.bits.size()) out.bits.push_back(bit);
    before /= radix[i];
    level.radix = radix[i];
    level.before = before;
    level.ways = power_of_three(bits[i].size());
    level.rows_in = std::size_t{1} << in.bits.size();
    level.rows_out = std::size_t{1} << out.bits.size();
    add_terms(level, in, out, bits[i], i == 0);
    largest_ = std::max(largest_, level.before * level.rows_out * lanes);
    work_ += static_cast<double>(level.before * level.by_in.size() * level.radix);
    in = std::move(out);
  }
}

std::vector<double> Contraction::numbers_of(const GradeRow& prior,
                                            const std::vector<Touch>& touches) {
  const std::size_t ways = power_of_three(touches.size());
  std::vector<double> numbers;
  numbers.reserve(prior.size() * ways);
  for (std::size_t g = 0; g < prior.size(); ++g)
    for (std::size_t way = 0; way < ways; ++way) {
      double product = prior[g];
      std::size_t rest = way;
      for (const Touch& touch : touches) {
        const double strength = touch.strength[g];
        if (rest % 3 == quiet) product *= 1 - strength;
        if (rest % 3 == fires) product *= strength;
        rest /= 3;
      }
      numbers.push_back(product);
    }
  return numbers;
}

void Contraction::forward(const double* likelihood, const Numbers& numbers, double* table) const {
  if (levels_.empty()) {
    std::copy_n(likelihood, lanes, table);
    return;
  }
  thread_local std::vector<double> one, other;
  if (one.size() < largest_) one.resize(largest_);
  if (other.size() < largest_) other.resize(largest_);
  const double* in = likelihood;
  double* spare[2] = {one.data(), other.data()};
  for (std::size_t i = levels_.size(); i-- > 0;) {
    double* out = i == 0 ? table : spare[i % 2];
    run_level_forward(levels_[i], numbers.of_level[i].data(), in, out);
    in = out;
  }
}

void Contraction::backward(const double* gradient, const Numbers& numbers, double* share) const {
  if (levels_.empty()) {
    std::copy_n(gradient, lanes, share);
    return;
  }
  thread_local std::vector<double> one, other;
  if (one.size() < largest_) one.resize(largest_);
  if (other.size() < largest_) other.resize(largest_);
  double* spare[2] = {one.data(), other.data()};
  const double* from = gradient;
  for (std::size_t i = 0; i < levels_.size(); ++i) {
    double* out = i + 1 == levels_.size() ? share : spare[i % 2];
    run_level_backward(levels_[i], numbers.of_level[i].data(), from, out);
    from = out;
  }
}

}  // namespace soot::infer
