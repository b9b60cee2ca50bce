// Internal to core/infer. What happens to the main table in a step of the chain, forward and back:
// turned so that the item's bits lie on top, joined with the item's kernel, bits closed. An empty
// table stands for nothing and gives nothing.
#pragma once

#include "core/infer/chain.hpp"
#include "core/infer/reports.hpp"

#include <cstddef>
#include <vector>

namespace soot::infer {

using Table = std::vector<double>;

/// Adds the halves of a bit with the weights of its reports; and the gradient of that.
Table fold_bit(const Table& table, std::size_t place, const Bit& bit);
Table unfold_bit(const Table& after, std::size_t place, const Bit& bit);
/// Sum over the sets without the bit, of its quiet part.
double quiet_part(const Table& table, const Table& after, std::size_t place, const Bit& bit);

Table turn_table(const Step& step, const Table& table);
Table turn_table_back(const Step& step, const Table& table);

Table join_table(const Step& step, const Table& table, const Table& kernel);
/// Gradient in the table, and in the kernel.
Table table_gradient(const Step& step, const Table& after, const Table& kernel);
Table kernel_gradient(const Step& step, const Table& after, const Table& table);

void add_table(Table& to, const Table& more);
double table_product(const Table& a, const Table& b);

}  // namespace soot::infer
