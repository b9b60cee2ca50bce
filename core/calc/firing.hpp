// The order in which lifters are set: coming up in the running direction from one firing top centre
// to the next, each mark serving the cylinders whose pistons stand at the top together.
#pragma once

#include "core/base/problem.hpp"
#include "core/model/family.hpp"

#include <vector>

namespace soot::calc {

struct Setting {
  int cylinder = 0;
  double crank_deg = 0;        ///< from the firing top centre of the order's first cylinder
  double pump_deg = 0;         ///< the same at the pump's camshaft: the phase of an in-line pump
  std::vector<int> same_mark;  ///< other cylinders at a top centre just then
};

/// One entry a cylinder, in firing order. Fails if the order is no permutation of the cylinders.
/// Firing strokes are taken as evenly spaced.
Result<std::vector<Setting>> setting_order(const Family& family);

}  // namespace soot::calc
