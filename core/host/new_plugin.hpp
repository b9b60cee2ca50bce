// Starts a plugin from the template: a copy in which the template's word stands replaced, in names
// of files and in their text.
#pragma once

#include "core/base/problem.hpp"

#include <filesystem>
#include <string>

namespace soot::host {

/// The id of the plugin in the templates.
inline constexpr const char* template_word = "my-engine";

/// Copies `from` to the new folder `to`/`id`. Fails (Kind::use) on an id that is none and on a
/// folder that is there already, (Kind::trouble) on a template that is not there and on the disk.
Result<std::filesystem::path> new_plugin(const std::filesystem::path& from,
                                         const std::filesystem::path& to, const std::string& id);

}  // namespace soot::host
