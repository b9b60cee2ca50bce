#include "core/infer/table.hpp"

#include <algorithm>

namespace soot::infer {

namespace {

/// One join of a large table (n bits left) with a small one (m of its bits left). The pointers move
/// into halves as bits are split off from the top.
class Join {
 public:
  Join(std::size_t lanes, const BitList& bits)
      : lanes_(lanes), bits_(bits), scratch_(lanes << bits.size()) {}

  void forward(double* out, const double* a, const double* b, std::size_t n, std::size_t m) {
    if (m == 0) {
      for (std::size_t set = 0; set < (std::size_t{1} << n); ++set, out += lanes_, a += lanes_)
        multiply(out, a, b);
      return;
    }
    const std::size_t half = lanes_ << (n - 1);
    if (bits_[m - 1] != n - 1) {
      forward(out, a, b, n - 1, m);
      forward(out + half, a + half, b, n - 1, m);
      return;
    }
    const double* fired = b + (lanes_ << (m - 1));
    forward(out, a, b, n - 1, m - 1);
    forward(out + half, a, fired, n - 1, m - 1);
    forward(out + half, a + half, both(b, m), n - 1, m - 1);
  }

  void adjoint(double* out, const double* after, const double* b, std::size_t n, std::size_t m) {
    if (m == 0) {
      for (std::size_t set = 0; set < (std::size_t{1} << n); ++set, out += lanes_, after += lanes_)
        multiply(out, after, b);
      return;
    }
    const std::size_t half = lanes_ << (n - 1);
    if (bits_[m - 1] != n - 1) {
      adjoint(out, after, b, n - 1, m);
      adjoint(out + half, after + half, b, n - 1, m);
      return;
    }
    const double* fired = b + (lanes_ << (m - 1));
    adjoint(out, after, b, n - 1, m - 1);
    adjoint(out, after + half, fired, n - 1, m - 1);
    adjoint(out + half, after + half, both(b, m), n - 1, m - 1);
  }

  void gradient(double* out, const double* a, const double* after, std::size_t n, std::size_t m) {
    if (m == 0) {
      for (std::size_t set = 0; set < (std::size_t{1} << n); ++set, a += lanes_, after += lanes_)
        multiply(out, a, after);
      return;
    }
    const std::size_t half = lanes_ << (n - 1);
    if (bits_[m - 1] != n - 1) {
      gradient(out, a, after, n - 1, m);
      gradient(out, a + half, after + half, n - 1, m);
      return;
    }
    const std::size_t size = lanes_ << (m - 1);
    gradient(out, a, after, n - 1, m - 1);
    gradient(out + size, a, after + half, n - 1, m - 1);
    double* shared = scratch_.data() + size;
    std::fill(shared, shared + size, 0.0);
    gradient(shared, a + half, after + half, n - 1, m - 1);
    for (std::size_t i = 0; i < size; ++i) {
      out[i] += shared[i];
      out[size + i] += shared[i];
    }
  }

 private:
  void multiply(double* out, const double* a, const double* b) const {
    for (std::size_t lane = 0; lane < lanes_; ++lane)
      out[lane] += a[lane] * b[lane];
  }

  /// b with its highest bit summed out, kept in the scratch place of this depth.
  const double* both(const double* b, std::size_t m) {
    const std::size_t size = lanes_ << (m - 1);
    double* sum = scratch_.data() + size;
    for (std::size_t i = 0; i < size; ++i)
      sum[i] = b[i] + b[size + i];
    return sum;
  }

  std::size_t lanes_;
  const BitList& bits_;
  std::vector<double> scratch_;  ///< depth m uses [size, 2 size) with size = lanes 2^(m-1)
};

/// Runs over the pairs (rows without, rows with) of one bit.
template <class Change>
void for_pairs(Table& table, std::size_t bit, Change change) {
  const std::size_t block = table.lanes() << bit;
  const std::size_t total = table.lanes() << table.bits();
  double* values = table.row(0);
  for (std::size_t start = 0; start < total; start += 2 * block)
    for (std::size_t i = start; i < start + block; ++i)
      change(values[i], values[i + block]);
}

}  // namespace

void Table::add(const Table& other) {
  for (std::size_t i = 0; i < values_.size(); ++i)
    values_[i] += other.values_[i];
}

void Table::scale(double factor) {
  for (double& value : values_)
    value *= factor;
}

void add_or(Table& out, const Table& a, const Table& b, const BitList& bits) {
  Join(a.lanes(), bits).forward(out.row(0), a.row(0), b.row(0), a.bits(), bits.size());
}

void add_or_adjoint(Table& out, const Table& after, const Table& b, const BitList& bits) {
  Join(b.lanes(), bits).adjoint(out.row(0), after.row(0), b.row(0), after.bits(), bits.size());
}

void add_or_gradient(Table& out, const Table& a, const Table& after, const BitList& bits) {
  Join(a.lanes(), bits).gradient(out.row(0), a.row(0), after.row(0), a.bits(), bits.size());
}

void fire(Table& table, const std::vector<Touch>& touches, std::size_t grade,
          const BitList& position) {
  for (const Touch& touch : touches) {
    const double strength = touch.strength[grade];
    if (strength == 0) continue;
    for_pairs(table, position[touch.bit], [strength](double& without, double& with) {
      with += strength * without;
      without *= 1 - strength;
    });
  }
}

void fire_adjoint(Table& after, const std::vector<Touch>& touches, std::size_t grade,
                  const BitList& position) {
  for (const Touch& touch : touches) {
    const double strength = touch.strength[grade];
    if (strength == 0) continue;
    for_pairs(after, position[touch.bit], [strength](double& without, double& with) {
      without = (1 - strength) * without + strength * with;
    });
  }
}

double dot(const Table& a, const Table& b) {
  double sum = 0;
  for (std::size_t set = 0; set < a.sets(); ++set)
    sum += a[set] * b[set];
  return sum;
}

}  // namespace soot::infer
