// What stands wrong with a plugin's file or folder, named by its path.
#pragma once

#include "core/base/problem.hpp"

#include <filesystem>

namespace soot::host {

inline Problem trouble_at(const std::filesystem::path& path, std::string text,
                          Severity severity = Severity::error) {
  return Problem{Kind::trouble, severity, Place{path.string()}, std::move(text), ""};
}

/// The same as the whole of what went wrong.
inline tl::unexpected<Problems> stopped_at(const std::filesystem::path& path, std::string text) {
  return tl::unexpected(Problems{trouble_at(path, std::move(text))});
}

}  // namespace soot::host
