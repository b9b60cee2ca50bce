// Numbering and order seen from the other end, or with the engine turning the other way: what a
// person has before him who counted from the wrong end. Elementary: reversing the numbers, or the
// sequence, is its own undoing.
#pragma once

#include <vector>

namespace soot::calc {

/// Cylinder 1 becomes n, and back. `cylinder` 1 to `cylinders`.
int counted_from_other_end(int cylinder, int cylinders);

/// The same firing order with the cylinders counted from the other end, begun at No. 1 again.
std::vector<int> order_from_other_end(const std::vector<int>& order);

/// The order of a shaft that turns the other way (an engine going astern), begun at No. 1.
std::vector<int> order_turning_back(const std::vector<int>& order);

}  // namespace soot::calc
