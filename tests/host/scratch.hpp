// A fresh folder of one test's own, gone with it.
#pragma once

#include "tests/places.hpp"

#include <filesystem>
#include <fstream>
#include <string>

namespace soot::host::test {

namespace fs = std::filesystem;

class Scratch {
 public:
  explicit Scratch(const std::string& name) : path_(fs::path(binary_dir()) / "scratch" / name) {
    fs::remove_all(path_);
    fs::create_directories(path_);
  }
  ~Scratch() {
    std::error_code ignored;
    fs::remove_all(path_, ignored);
  }
  Scratch(const Scratch&) = delete;
  Scratch& operator=(const Scratch&) = delete;

  const fs::path& path() const { return path_; }

  fs::path write(const std::string& name, const std::string& text) const {
    const fs::path file = path_ / name;
    fs::create_directories(file.parent_path());
    std::ofstream(file) << text;
    return file;
  }

 private:
  fs::path path_;
};

/// A plugin.toml that is in order.
inline std::string manifest_text(const std::string& id) {
  return "id = \"" + id + "\"\nversion = \"1.0.0\"\nabi = 1\nlibrary = \"" + id +
         ".so\"\nabout = \"made for a test\"\n";
}

}  // namespace soot::host::test
