// Internal to core/infer. The order in which everything acts on the main table: first the groups,
// then the forest's tops. A bit has its place in the table only from its first item to its last
// (the *frontier*): then it is closed, its two halves added with the weights of its reports.
#pragma once

#include "core/infer/forest.hpp"
#include "core/infer/or_table.hpp"

#include <cstddef>
#include <utility>
#include <vector>

namespace soot::infer {

/// What acts on the table: a group, or a top unit of the forest.
struct Item {
  bool is_group = false;
  std::size_t index = 0;
  BitList bits;  ///< rising
};

struct Closing {
  std::size_t bit = 0;
  std::size_t place = 0;  ///< in the table that it leaves
};

struct Step {
  Item item;
  /// Before the item joins, the table is turned so that the item's bits lie on top: the number at
  /// `low[i] + high[j]` goes to place i + j * low.size().
  std::vector<std::size_t> low, high;
  std::vector<Join> join, back;  ///< one each: table (left) with kernel (right); sides exchanged
  std::vector<Closing> closings;

  std::size_t size_in() const { return low.size() * high.size(); }
  std::size_t size_joined() const { return join.front().out_size(); }
};

struct Chain {
  std::vector<Step> steps;
  std::size_t groups = 0;           ///< steps that are groups: the first ones
  std::vector<std::size_t> lonely;  ///< bits that nothing listed can fire
  double work = 0;                  ///< steps, there and back
  double memory = 0;                ///< numbers kept on the way
  std::size_t width = 0;            ///< bits of the largest table
};

/// `bits`: how many in all.
Chain order_chain(std::vector<Item> groups, const Forest& forest, std::size_t bits);

}  // namespace soot::infer
