#include "core/infer/chain.hpp"

#include <algorithm>
#include <bit>
#include <cmath>
#include <cstdint>
#include <limits>

namespace soot::infer {

namespace {

using Mask = std::uint64_t;

Mask mask_of(const BitList& bits) {
  Mask mask = 0;
  for (const std::size_t bit : bits)
    mask |= Mask{1} << bit;
  return mask;
}

double bits_in(Mask mask) {
  return std::popcount(mask);
}

/// Steps of joining an item with a table over `open`, there and back.
double cost_of(Mask open, Mask item) {
  return 3 * std::pow(1.5, bits_in(open & item)) * std::exp2(bits_in(open | item));
}

struct Order {
  std::vector<std::size_t> items;
  double work = 0;
};

/// Greedy: the item that opens least and closes most; `first` is taken before all.
Order greedy(const std::vector<Mask>& masks, Mask open, std::size_t first) {
  Order order;
  std::vector<bool> used(masks.size());
  std::vector<int> left(64, 0);
  for (const Mask mask : masks)
    for (std::size_t bit = 0; bit < 64; ++bit)
      left[bit] += static_cast<int>(mask >> bit & 1);
  while (order.items.size() < masks.size()) {
    std::size_t best = first;
    double least = std::numeric_limits<double>::infinity();
    for (std::size_t i = 0; i < masks.size() && !order.items.empty(); ++i) {
      if (used[i]) continue;
      double score = bits_in(masks[i] & ~open);
      for (std::size_t bit = 0; bit < 64; ++bit)
        if ((masks[i] >> bit & 1) != 0) {
          if (left[bit] == 1) score -= 1;
          score -= 0.5 / left[bit];
        }
      if (score < least) {
        least = score;
        best = i;
      }
    }
    used[best] = true;
    order.items.push_back(best);
    order.work += cost_of(open, masks[best]);
    open |= masks[best];
    for (std::size_t bit = 0; bit < 64; ++bit)
      if ((masks[best] >> bit & 1) != 0 && --left[bit] == 0) open &= ~(Mask{1} << bit);
  }
  return order;
}

std::vector<Item> best_order(std::vector<Item> groups, const Forest& forest) {
  std::stable_sort(groups.begin(), groups.end(),
                   [](const Item& a, const Item& b) { return a.bits.size() > b.bits.size(); });
  std::vector<Mask> masks;
  for (const std::size_t top : forest.tops)
    masks.push_back(mask_of(forest.units[top].bits));
  Mask open = 0;
  for (const Item& group : groups)
    open |= mask_of(group.bits);
  Order best;
  best.work = std::numeric_limits<double>::infinity();
  constexpr std::size_t starts_tried = 16;
  for (std::size_t first = 0; first < std::min(masks.size(), starts_tried); ++first) {
    Order order = greedy(masks, open, first);
    if (order.work < best.work) best = std::move(order);
  }
  for (const std::size_t i : best.items)
    groups.push_back({false, forest.tops[i], forest.units[forest.tops[i]].bits});
  return groups;
}

/// Offsets in the table as it was of all combinations of the bits at `places`.
std::vector<std::size_t> offsets(const std::vector<std::size_t>& places) {
  std::vector<std::size_t> result{0};
  for (const std::size_t place : places) {
    const std::size_t half = result.size();
    for (std::size_t i = 0; i < half; ++i)
      result.push_back(result[i] + (std::size_t{1} << place));
  }
  return result;
}

}  // namespace

Chain order_chain(std::vector<Item> groups, const Forest& forest, std::size_t bits) {
  Chain chain;
  chain.groups = groups.size();
  const std::vector<Item> items = best_order(std::move(groups), forest);
  std::vector<std::size_t> last(bits, items.size());
  for (std::size_t i = 0; i < items.size(); ++i)
    for (const std::size_t bit : items[i].bits)
      last[bit] = i;
  for (std::size_t bit = 0; bit < bits; ++bit)
    if (last[bit] == items.size()) chain.lonely.push_back(bit);
  BitList open;  // in the order of the table
  for (std::size_t i = 0; i < items.size(); ++i) {
    Step step;
    step.item = items[i];
    const BitList& own = step.item.bits;
    const auto is_own = [&](std::size_t bit) {
      return std::binary_search(own.begin(), own.end(), bit);
    };
    const auto place_of = [&](std::size_t bit) {
      return static_cast<std::size_t>(std::find(open.begin(), open.end(), bit) - open.begin());
    };
    std::vector<std::size_t> low, high;
    BitList after;
    Weave woven;
    for (std::size_t place = 0; place < open.size(); ++place)
      if (!is_own(open[place])) {
        low.push_back(place);
        after.push_back(open[place]);
        woven.owner.push_back(Owner::left);
      }
    for (const std::size_t bit : own) {
      const std::size_t place = place_of(bit);
      if (place < open.size()) high.push_back(place);
      woven.owner.push_back(place < open.size() ? Owner::both : Owner::right);
      after.push_back(bit);
    }
    chain.width = std::max(chain.width, after.size());
    const double layers = step.item.is_group ? 3 : 1;
    chain.work += layers * (3 * std::pow(1.5, static_cast<double>(high.size())) + 4) *
                  std::exp2(static_cast<double>(after.size()));
    chain.memory += layers * 4 * std::exp2(static_cast<double>(after.size()));
    constexpr std::size_t most_width = 26;  // refused anyway; the layout alone would fill memory
    if (chain.width > most_width) {
      chain.memory = chain.work = std::numeric_limits<double>::infinity();
      return chain;
    }
    step.low = offsets(low);
    step.high = offsets(high);
    step.join.emplace_back(woven, 1);
    step.back.emplace_back(woven.turned(), 1);
    open = std::move(after);
    for (std::size_t place = open.size(); place-- > 0;)
      if (last[open[place]] == i) {
        step.closings.push_back({open[place], place});
        open.erase(open.begin() + static_cast<std::ptrdiff_t>(place));
      }
    chain.steps.push_back(std::move(step));
  }
  return chain;
}

}  // namespace soot::infer
