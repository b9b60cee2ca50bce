#include "core/infer/row_sums.hpp"

#include "core/infer/or_table.hpp"

namespace soot::infer {

namespace {
inline double sum_of(const double* part) {
  return ((part[0] + part[1]) + (part[2] + part[3])) + ((part[4] + part[5]) + (part[6] + part[7]));
}
}  // namespace

SOOT_VECTOR_CLONES
void add_weighted_numbers(double* __restrict rows, const double* __restrict numbers,
                          const double* __restrict weight, std::size_t sets) {
  for (std::size_t set = 0; set < sets; ++set)
    for (std::size_t lane = 0; lane < lanes; ++lane)
      rows[set * lanes + lane] += weight[lane] * numbers[set];
}

SOOT_VECTOR_CLONES
void add_weighted_sums(double* __restrict sums, const double* __restrict table,
                       const double* __restrict weight, std::size_t rows) {
  for (std::size_t row = 0; row < rows; ++row) {
    double part[lanes];
    for (std::size_t lane = 0; lane < lanes; ++lane)
      part[lane] = weight[lane] * table[row * lanes + lane];
    sums[row] += sum_of(part);
  }
}

SOOT_VECTOR_CLONES
void add_products(double* __restrict sums, const double* __restrict a, const double* __restrict b,
                  std::size_t rows) {
  for (std::size_t row = 0; row < rows; ++row) {
    double part[lanes];
    for (std::size_t lane = 0; lane < lanes; ++lane)
      part[lane] = a[row * lanes + lane] * b[row * lanes + lane];
    sums[row] += sum_of(part);
  }
}

}  // namespace soot::infer
