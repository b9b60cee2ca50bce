// Internal to core/infer. Which states of a group's commons shift alike and so share nodes.
#pragma once

#include "core/infer/regime_grid.hpp"

#include <cstddef>
#include <vector>

namespace soot::infer {

ReadingPrecision precisions_of(const NodeInput& input);

/// Indices of states. The single points and lines first, the more probable first: the larger grids
/// are measured against what those have come to.
std::vector<std::vector<std::size_t>> regimes_of(const NodeInput& input,
                                                 const ReadingPrecision& readings);

}  // namespace soot::infer
