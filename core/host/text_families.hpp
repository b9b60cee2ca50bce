// Plugins without a library: their families are text alone, every families/NAME.toml the family
// NAME. The text is handed on unread; who reads it names what is wrong by line, so that a broken
// file hides only itself.
#pragma once

#include "core/base/problem.hpp"
#include "core/host/manifest.hpp"
#include "core/host/served_family.hpp"

#include <filesystem>
#include <vector>

namespace soot::host {

/// The families in the plugin's folder; before them, if the plugin `serves_own`, those in
/// `own_folders`: what the person wrote himself counts first. Files that cannot be read are added
/// to `problems`.
std::vector<ServedFamily> serve_text(const Manifest& manifest,
                                     const std::vector<std::filesystem::path>& own_folders,
                                     Problems& problems);

}  // namespace soot::host
