#include "tests/places.hpp"

const std::string& source_dir() {
  static const std::string dir = SOOT_SOURCE_DIR;
  return dir;
}

const std::string& binary_dir() {
  static const std::string dir = SOOT_BINARY_DIR;
  return dir;
}
