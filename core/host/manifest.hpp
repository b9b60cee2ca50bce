// What a plugin says of itself in plugin.toml: read without running any of its code, so that a
// plugin for another program version is refused politely.
#pragma once

#include "core/base/problem.hpp"

#include <filesystem>
#include <string>

namespace soot::host {

struct Manifest {
  std::string id;
  std::string version;
  long abi = 0;         ///< major version of the boundary it was built for
  std::string library;  ///< a file name in `folder`
  std::string about;
  std::filesystem::path folder;

  std::filesystem::path library_path() const { return folder / library; }
};

/// Reads `folder`/plugin.toml. Problems have kind `trouble`, with file and line.
Result<Manifest> read_manifest(const std::filesystem::path& folder);

}  // namespace soot::host
