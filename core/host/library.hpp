// Loads a plugin's shared library and looks at its entry before anything of it is called. The one
// user of Boost.DLL.
#pragma once

#include "core/base/problem.hpp"
#include "core/host/manifest.hpp"

#include <sootsayer/plugin.h>

namespace soot::host {

/// The entry of a plugin that this program can work with, as its plugin.toml promised; valid to the
/// end of the process, for the library is never unloaded. The problem's text says why not, and has
/// no place.
Result<const soot_entry_t*> load_entry(const Manifest& manifest);

}  // namespace soot::host
