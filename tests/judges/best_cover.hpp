// The best that a short list can do: how many of several questions it can answer at most.
#pragma once

#include <cstddef>
#include <set>
#include <string>
#include <vector>

namespace soot::judges {

/// Each entry of `wanted` is satisfied by any of its ids. The largest number of entries that one
/// list of at most `places` ids satisfies, exactly (branch and bound). Entries without ids count
/// for nothing.
std::size_t best_cover(const std::vector<std::set<std::string>>& wanted, std::size_t places);

}  // namespace soot::judges
