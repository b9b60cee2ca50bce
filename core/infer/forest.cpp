#include "core/infer/forest.hpp"

#include <algorithm>
#include <bit>
#include <cmath>
#include <cstdint>

namespace soot::infer {

namespace {

/// Kernels are not joined beyond so many bits for the sake of speed.
constexpr int most_bits_joined = 7;

using Mask = std::uint64_t;

int count(Mask mask) {
  return std::popcount(mask);
}

/// Units that share a bit set.
struct Bucket {
  Mask mask = 0;
  std::vector<std::size_t> units;
};

class Grower {
 public:
  Grower(const Instances& instances, const std::vector<std::vector<Touch>>& touches)
      : instances_(instances), touches_(touches) {}

  Forest grow(const std::vector<std::size_t>& plain) {
    forest_.units.reserve(2 * plain.size());
    masks_.reserve(2 * plain.size());
    std::vector<std::size_t> units, leaves;
    for (std::size_t at = 0; at < plain.size(); ++at) {
      leaves.push_back(add_leaf(plain[at]));
      if (at + 1 < plain.size() && cause_of(plain[at]) == cause_of(plain[at + 1])) continue;
      for (const std::size_t unit : join_cause(leaves))
        units.push_back(unit);
      leaves.clear();
    }
    std::stable_sort(units.begin(), units.end(),
                     [&](std::size_t a, std::size_t b) { return masks_[a] < masks_[b]; });
    for (const std::size_t unit : units) {
      if (buckets_.empty() || buckets_.back().mask != masks_[unit])
        buckets_.push_back({masks_[unit], {}});
      buckets_.back().units.push_back(unit);
    }
    join_subsets();
    join_pairs();
    std::sort(buckets_.begin(), buckets_.end(),
              [](const Bucket& a, const Bucket& b) { return a.mask < b.mask; });
    for (Bucket& bucket : buckets_)
      forest_.tops.push_back(join(std::move(bucket.units)));
    return std::move(forest_);
  }

 private:
  std::size_t cause_of(std::size_t instance) const { return instances_[instance].cause; }

  std::size_t add(Unit unit, Mask mask) {
    unit.bits.reserve(static_cast<std::size_t>(count(mask)));
    for (Mask left = mask; left != 0; left &= left - 1)
      unit.bits.push_back(static_cast<std::size_t>(std::countr_zero(left)));
    unit.kernel_at = forest_.pool;
    forest_.pool += unit.sets();
    forest_.units.push_back(std::move(unit));
    masks_.push_back(mask);
    return masks_.size() - 1;
  }

  std::size_t add_leaf(std::size_t instance) {
    Unit leaf;
    leaf.instance = instance;
    leaf.causes = {cause_of(instance)};
    Mask mask = 0;
    for (const Touch& touch : touches_[instance])
      mask |= Mask{1} << touch.bit;
    return add(std::move(leaf), mask);
  }

  std::size_t join(std::vector<std::size_t> parts) {
    if (parts.size() == 1) return parts.front();
    std::stable_sort(parts.begin(), parts.end(), [&](std::size_t a, std::size_t b) {
      return count(masks_[a]) < count(masks_[b]);
    });
    Unit unit;
    unit.joins.reserve(parts.size());
    unit.back.reserve(parts.size());
    Mask mask = 0;
    BitList upto;
    bool was_same = false;
    for (const std::size_t part : parts) {
      const Unit& own = forest_.units[part];
      const bool is_same = masks_[part] == mask;
      if (is_same && was_same) {
        unit.joins.push_back(unit.joins.back());
        unit.back.push_back(unit.back.back());
      } else {
        const Weave woven = weave(upto, own.bits);
        unit.joins.emplace_back(woven, 1);
        unit.back.emplace_back(woven.turned(), 1);
        if (!is_same) upto = united(upto, own.bits);
      }
      forest_.work +=
          3 * cost(count(mask & masks_[part])) * std::ldexp(1.0, count(mask | masks_[part]));
      mask |= masks_[part];
      was_same = is_same;
      unit.causes.insert(unit.causes.end(), own.causes.begin(), own.causes.end());
    }
    std::sort(unit.causes.begin(), unit.causes.end());
    unit.causes.erase(std::unique(unit.causes.begin(), unit.causes.end()), unit.causes.end());
    unit.parts = std::move(parts);
    const std::size_t made = add(std::move(unit), mask);
    Unit& joined = forest_.units[made];
    joined.upto_at.assign(joined.parts.size(), joined.kernel_at);
    for (std::size_t j = 1; j + 1 < joined.parts.size(); ++j) {
      joined.upto_at[j] = forest_.pool;
      forest_.pool += joined.joins[j].out_size();
    }
    joined.upto_at[0] = forest_.units[joined.parts[0]].kernel_at;
    return made;
  }

  /// A cause's leaves as one unit, so that "in any cylinder" is answered inside it, where that
  /// costs no bits.
  std::vector<std::size_t> join_cause(const std::vector<std::size_t>& leaves) {
    Mask all = 0;
    bool held = false;
    for (const std::size_t leaf : leaves)
      all |= masks_[leaf];
    for (const std::size_t leaf : leaves)
      held = held || masks_[leaf] == all;
    if (!held && count(all) > most_bits_joined) return leaves;
    return {join(leaves)};
  }

  void merge(std::size_t from, std::size_t into) {
    Bucket& to = buckets_[into];
    to.mask |= buckets_[from].mask;
    to.units.insert(to.units.end(), buckets_[from].units.begin(), buckets_[from].units.end());
    buckets_.erase(buckets_.begin() + static_cast<std::ptrdiff_t>(from));
  }

  void join_subsets() {
    std::stable_sort(buckets_.begin(), buckets_.end(), [](const Bucket& a, const Bucket& b) {
      return count(a.mask) < count(b.mask);
    });
    for (std::size_t small = 0; small < buckets_.size();) {
      std::size_t holder = small;
      for (std::size_t large = small + 1; large < buckets_.size() && holder == small; ++large)
        if ((buckets_[small].mask & ~buckets_[large].mask) == 0) holder = large;
      if (holder == small)
        ++small;
      else
        merge(small, holder);
    }
  }

  void join_pairs() {
    while (true) {
      double most = 0;
      std::size_t first = 0, second = 0;
      for (std::size_t a = 0; a < buckets_.size(); ++a)
        for (std::size_t b = a + 1; b < buckets_.size(); ++b) {
          const int together = count(buckets_[a].mask | buckets_[b].mask);
          if (together > most_bits_joined) continue;
          const double gain =
              cost(count(buckets_[a].mask)) + cost(count(buckets_[b].mask)) - cost(together);
          if (gain > most) {
            most = gain;
            first = a;
            second = b;
          }
        }
      if (!(most > 0)) return;
      merge(second, first);
    }
  }

  static double cost(int bits) {
    static const std::vector<double> costs = [] {
      std::vector<double> all;
      for (int n = 0; n <= 64; ++n)
        all.push_back(std::pow(1.5, n));
      return all;
    }();
    return costs[static_cast<std::size_t>(bits)];
  }

  const Instances& instances_;
  const std::vector<std::vector<Touch>>& touches_;
  Forest forest_;
  std::vector<Mask> masks_;  ///< one a unit
  std::vector<Bucket> buckets_;
};

/// Most units have few bits: their tables lie in the buffer itself.
using SmallTable = boost::container::small_vector<double, 32>;

/// prior times what firing a grade does, over the leaf's own bits.
void add_fired(double prior, std::size_t grade, const std::vector<Touch>& touches, double* out,
               SmallTable& scratch) {
  scratch.assign(1, prior);
  for (const Touch& touch : touches) {
    const std::size_t half = scratch.size();
    scratch.resize(2 * half);
    for (std::size_t i = 0; i < half; ++i) {
      scratch[half + i] = touch.strength[grade] * scratch[i];
      scratch[i] *= 1 - touch.strength[grade];
    }
  }
  for (std::size_t i = 0; i < scratch.size(); ++i)
    out[i] += scratch[i];
}

}  // namespace

bool Unit::has(std::size_t cause) const {
  return std::binary_search(causes.begin(), causes.end(), cause);
}

Forest grow_forest(const Instances& instances, const std::vector<std::size_t>& plain,
                   const std::vector<std::vector<Touch>>& touches) {
  return Grower(instances, touches).grow(plain);
}

ForestPass::ForestPass(const Forest& forest, const std::vector<std::vector<Touch>>& touches,
                       const Instances& instances, const Priors& priors)
    : forest_(&forest),
      touches_(&touches),
      instances_(&instances),
      priors_(&priors),
      pool_(forest.pool, 0.0) {
  SmallTable scratch;
  for (const Unit& unit : forest.units) {
    if (unit.is_leaf()) {
      const GradeRow& prior = priors.grade[unit.instance];
      for (std::size_t g = 0; g < prior.size(); ++g)
        add_fired(prior[g], g, touches[unit.instance], pool_.data() + unit.kernel_at, scratch);
      continue;
    }
    for (std::size_t j = 1; j < unit.parts.size(); ++j)
      unit.joins[j].forward(pool_.data() + unit.upto_at[j], pool_.data() + unit.upto_at[j - 1],
                            kernel(unit.parts[j]));
  }
}

void ForestPass::back(std::size_t unit, const double* gradient,
                      std::vector<GradeRow>& grades) const {
  const Unit& here = forest_->units[unit];
  if (here.is_leaf()) {
    const GradeRow& prior = priors_->grade[here.instance];
    SmallTable scratch, fired;
    for (std::size_t g = 0; g < prior.size(); ++g) {
      fired.assign(here.sets(), 0.0);
      add_fired(prior[g], g, (*touches_)[here.instance], fired.data(), scratch);
      grades[here.instance][g] += dot(fired.data(), gradient, fired.size());
    }
    return;
  }
  SmallTable after(gradient, gradient + here.sets()), own, earlier;
  for (std::size_t j = here.parts.size(); j-- > 1;) {
    own.resize(here.joins[j].right_size());
    here.back[j].adjoint(own.data(), after.data(), pool_.data() + here.upto_at[j - 1]);
    back(here.parts[j], own.data(), grades);
    earlier.resize(here.joins[j].left_size());
    here.joins[j].adjoint(earlier.data(), after.data(), kernel(here.parts[j]));
    after.swap(earlier);
  }
  back(here.parts[0], after.data(), grades);
}

std::pair<std::vector<double>, std::vector<double>> ForestPass::parted(std::size_t unit,
                                                                       std::size_t cause) const {
  const Unit& here = forest_->units[unit];
  std::vector<double> none(here.sets(), 0.0), any(here.sets(), 0.0);
  if (!here.has(cause)) {
    std::copy_n(kernel(unit), here.sets(), none.begin());
    return {std::move(none), std::move(any)};
  }
  if (here.is_leaf()) {
    const GradeRow& prior = priors_->grade[here.instance];
    SmallTable scratch;
    none[0] = prior[0];
    for (std::size_t g = 1; g < prior.size(); ++g)
      add_fired(prior[g], g, (*touches_)[here.instance], any.data(), scratch);
    return {std::move(none), std::move(any)};
  }
  for (std::size_t j = 0; j < here.parts.size(); ++j) {
    auto [own_none, own_any] = parted(here.parts[j], cause);
    if (j == 0) {
      none = std::move(own_none);
      any = std::move(own_any);
      continue;
    }
    const Join& join = here.joins[j];
    std::vector<double> next(join.out_size()), newly(join.out_size()), both = own_none;
    for (std::size_t i = 0; i < both.size(); ++i)
      both[i] += own_any[i];
    join.forward(next.data(), any.data(), both.data());
    join.forward(newly.data(), none.data(), own_any.data());
    for (std::size_t i = 0; i < next.size(); ++i)
      next[i] += newly[i];
    any = std::move(next);
    join.forward(newly.data(), none.data(), own_none.data());
    none = std::move(newly);
  }
  return {std::move(none), std::move(any)};
}

}  // namespace soot::infer
