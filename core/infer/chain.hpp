// Internal to core/infer. The links of the main chain: plain causes and whole groups act on tables
// over all bits, forward and backward. Groups act on pairs of tables, since at most one instrument
// of the whole network is wrong.
#pragma once

#include "core/infer/group_pass.hpp"
#include "core/infer/reports.hpp"
#include "core/infer/table.hpp"

#include <vector>

namespace soot::infer {

/// Weights of the sets of fired bits at the end: reports and leaks.
Table closing_weights(const Reports& reports);

/// table := sum over grades of prior times the table fired by that grade.
void fire_instance(Table& table, const std::vector<double>& prior,
                   const std::vector<Touch>& touches);
void fire_instance_adjoint(Table& after, const std::vector<double>& prior,
                           const std::vector<Touch>& touches);

/// Tables for "no instrument wrong among the groups so far" and "one is".
struct Pair {
  Table calm;
  Table wrong;
};

Pair join(const Pair& before, const Kernel& kernel, const BitList& bits);
Pair join_adjoint(const Pair& after, const Kernel& kernel, const BitList& bits);
/// In the kernel.
Kernel gradient_of(const Pair& before, const Pair& after, const BitList& bits);

/// 0, 1, 2 ...: every bit at its own place.
BitList all_bits(std::size_t count);

}  // namespace soot::infer
