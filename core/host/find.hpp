// Which plugins there are, before any of them is loaded: a plugin is a folder NAME with plugin.toml
// and a library, and stands in one of the folders that the caller names.
#pragma once

#include "core/base/problem.hpp"
#include "core/host/manifest.hpp"

#include <filesystem>
#include <vector>

namespace soot::host {

struct Found {
  std::vector<Manifest> manifests;  ///< in the order of the folders, by name within one
  Problems problems;                ///< kind `trouble`; a doubled id is a note
};

/// Looks through `folders` in order of precedence: of two plugins with one id the first counts, the
/// other is named. Names beginning with "." or "@" are passed over, and so are folders that hold
/// neither plugin.toml nor a library. A link to nowhere is named. A folder that is not there is a
/// problem: the caller leaves out those that need not be.
Found find_plugins(const std::vector<std::filesystem::path>& folders);

}  // namespace soot::host
