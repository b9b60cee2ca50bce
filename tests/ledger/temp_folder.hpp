// A folder of its own for one test, gone when the test ends; and a clock that ticks a second a
// call.
#pragma once

#include "core/base/clock.hpp"

#include <fmt/format.h>

#include <cstdlib>
#include <filesystem>
#include <memory>
#include <stdexcept>
#include <string>

namespace soot::ledger::test {

class TempFolder {
 public:
  TempFolder() {
    std::string pattern = (std::filesystem::temp_directory_path() / "ledger-test-XXXXXX").string();
    if (mkdtemp(pattern.data()) == nullptr) throw std::runtime_error("no temporary folder");
    path_ = pattern;
  }
  TempFolder(const TempFolder&) = delete;
  TempFolder& operator=(const TempFolder&) = delete;
  ~TempFolder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
  }

  const std::filesystem::path& path() const { return path_; }
  std::filesystem::path file() const { return path_ / "ledger.sqlite"; }

 private:
  std::filesystem::path path_;
};

/// 10:00:01, 10:00:02, ... of one invented day; at most 59 calls.
inline Clock ticking_clock() {
  auto second = std::make_shared<int>(0);
  return [second] { return fmt::format("2031-04-02T10:00:{:02}Z", ++*second); };
}

}  // namespace soot::ledger::test
