// The child's half of trying a plugin: loads it, asks it for everything a run would ask and a few
// things more, twice, saying beforehand what it is about to do. If the process does not live to the
// end, the last word says where it died.
#pragma once

#include "core/base/problem.hpp"
#include "core/host/manifest.hpp"
#include "core/host/served_family.hpp"
#include "core/host/wire.hpp"

#include <cstdint>
#include <filesystem>
#include <functional>
#include <vector>

namespace soot::host {

using Say = std::function<void(const Word&)>;

struct ProbeLimits {
  unsigned seconds = 10;  ///< of the processor
  /// Address space; not kept under a sanitizer, which needs it all.
  std::uint64_t memory_mb = 512;
};

/// Sets the process's limits: processor time, memory, no core file. For a child only: there is no
/// way back.
void keep_limits(const ProbeLimits& limits);

/// What a path given by a person means: a plugin's folder, its plugin.toml or its library. A
/// library without plugin.toml beside it, or that another plugin.toml stands beside, comes without
/// id. Fails (Kind::trouble) on what can be none of these.
Result<Manifest> plugin_at(const std::filesystem::path& path);

/// Tries it and says all. `standard_output` is a descriptor of a file that stands for the standard
/// streams: what the plugin writes there is held against it; -1: nobody looks. Gives what the
/// plugin served, for whoever knows more of families.
std::vector<ServedFamily> probe(const Manifest& manifest,
                                const std::vector<std::filesystem::path>& data_folders,
                                int standard_output, const Say& say);

}  // namespace soot::host
