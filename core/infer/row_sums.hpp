// Internal to core/infer. The inner loops of a group's pass, over tables whose entries are rows of
// `lanes` numbers.
#pragma once

#include <cstddef>

namespace soot::infer {

/// rows[set] += weight * numbers[set], the number the same in all lanes
void add_weighted_numbers(double* rows, const double* numbers, const double* weight,
                          std::size_t sets);
/// sums[row] += sum over the lanes of weight table[row], the weights the same in all rows
void add_weighted_sums(double* sums, const double* table, const double* weight, std::size_t rows);
/// sums[row] += sum over the lanes of a[row] b[row]
void add_products(double* sums, const double* a, const double* b, std::size_t rows);

}  // namespace soot::infer
