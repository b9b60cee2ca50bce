// The knowledge and a family as they ship, and a map of codes, opened once for the tests of a
// program.
#pragma once

#include "tests/judges/code_map.hpp"
#include "tests/judges/plain_engines.hpp"
#include "tests/places.hpp"

#include <doctest/doctest.h>

#include <string>

namespace soot::judges {

/// Of the family in `file`, from the root of the checkout. Each test program asks for one alone.
inline PlainEngines& shipped_engines(const std::string& file = "tests/data/plain.toml") {
  static Result<PlainEngines> engines =
      PlainEngines::open(source_dir() + "/knowledge", source_dir() + "/" + file);
  REQUIRE_MESSAGE(engines, (engines ? "" : to_string(engines.error())));
  return *engines;
}

/// Each test program asks for one map alone.
inline const CodeMap& shipped_map(const std::string& file) {
  static const Result<CodeMap> map = load_code_map(source_dir() + "/" + file);
  REQUIRE_MESSAGE(map, (map ? "" : to_string(map.error())));
  return *map;
}

}  // namespace soot::judges
