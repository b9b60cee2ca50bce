// What is wrong with the families that a plugin serves, before anybody works with them.
#pragma once

#include "core/base/problem.hpp"
#include "core/host/served_family.hpp"

#include <filesystem>
#include <vector>

namespace soot {

/// Reads each family and joins it with the common knowledge below `knowledge`. All complaints, by
/// file and line; empty = sound.
Problems check_served(const std::vector<host::ServedFamily>& families,
                      const std::filesystem::path& knowledge);

}  // namespace soot
