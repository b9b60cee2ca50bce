// Other people's tables, kept beside the checkout and not in it. A test that needs them asks here
// and is skipped, saying so, where they are not.
#pragma once

#include "tests/places.hpp"

#include <doctest/doctest.h>

#include <filesystem>
#include <optional>
#include <string>

namespace soot::judges {

inline std::optional<std::filesystem::path> beside(const std::string& file) {
  const std::filesystem::path path = std::filesystem::path{source_dir()} / "../shared" / file;
  if (std::filesystem::exists(path)) return path;
  MESSAGE("skipped: " << file << " is not beside this checkout");
  return std::nullopt;
}

}  // namespace soot::judges
