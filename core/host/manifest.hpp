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
  long abi = 0;        ///< major version of the boundary it was built for; 0 without a library
  std::string binary;  ///< its library, a file name in `folder`; empty: its families are text alone
  std::string about;
  bool serves_own = false;  ///< the families that the person wrote are served with it
  std::filesystem::path folder;

  bool is_text() const { return binary.empty(); }
  std::filesystem::path binary_path() const { return folder / binary; }
  /// What messages of the whole plugin point at.
  std::filesystem::path main_file() const {
    return is_text() ? folder / "plugin.toml" : binary_path();
  }
};

/// Reads `folder`/plugin.toml. Problems have kind `trouble`, with file and line.
Result<Manifest> read_manifest(const std::filesystem::path& folder);

}  // namespace soot::host
