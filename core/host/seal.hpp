// The seal of a plugin: the SHA-256 of every file in its folder. The build leaves it in the folder
// as plugin.sha256, so that damage on the way is seen before anything is loaded; `plugin add` keeps
// one among the person's data, so that a changed file asks again. Both are in the form of
// `sha256sum`, which can write and check them too. Against mistakes, not against someone who may
// write in the person's own folders.
#pragma once

#include "core/base/problem.hpp"

#include <filesystem>
#include <map>
#include <string>

namespace soot::host {

inline constexpr const char* seal_name = "plugin.sha256";

/// Hex sums by file name, relative to the plugin's folder.
using Seal = std::map<std::string, std::string>;

/// Takes every file below `folder` but hidden ones and plugin.sha256 itself. Fails (Kind::trouble)
/// on what is neither file nor folder, and on more than a plugin can need: 200 files or 64 MB.
Result<Seal> take_seal(const std::filesystem::path& folder);

/// Reads a seal whose names begin with `prefix`, which is taken off.
Result<Seal> read_seal(const std::filesystem::path& file, const std::string& prefix = "");

/// In the form of `sha256sum`, each name with `prefix` before it.
std::string to_text(const Seal& seal, const std::string& prefix = "");

/// "winch.so has changed", "winch.so is gone" or "winch.so is new", of the first file that differs;
/// "" if none does.
std::string difference(const Seal& was, const Seal& is);

}  // namespace soot::host
