#include "core/calc/ends.hpp"

#include <algorithm>

namespace soot::calc {
namespace {

std::vector<int> begun_at_one(std::vector<int> order) {
  const auto one = std::find(order.begin(), order.end(), 1);
  if (one != order.end()) std::rotate(order.begin(), one, order.end());
  return order;
}

}  // namespace

int counted_from_other_end(int cylinder, int cylinders) {
  return cylinders + 1 - cylinder;
}

std::vector<int> order_from_other_end(const std::vector<int>& order) {
  std::vector<int> other;
  for (const int cylinder : order)
    other.push_back(counted_from_other_end(cylinder, static_cast<int>(order.size())));
  return begun_at_one(std::move(other));
}

std::vector<int> order_turning_back(const std::vector<int>& order) {
  return begun_at_one({order.rbegin(), order.rend()});
}

}  // namespace soot::calc
