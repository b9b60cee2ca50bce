// The program as one plugin sees it: the services it may ask for, and what it wrote to the log.
#pragma once

#include "core/base/problem.hpp"

#include <sootsayer/plugin.h>

#include <filesystem>
#include <string>
#include <vector>

namespace soot::host {

/// Stays where it is from the plugin's init to the end of its deinit.
class Services {
 public:
  /// The plugin's own folder first, then those with the person's own data.
  explicit Services(const std::vector<std::filesystem::path>& folders);
  Services(const Services&) = delete;
  Services& operator=(const Services&) = delete;

  const soot_host_t* handle() const { return &handle_; }

  /// The last error that the plugin logged, taken off the log: the reason of a failed call. "no
  /// reason given" if there is none.
  std::string take_reason();

  struct Line {
    Severity severity;
    std::string text;
  };
  /// The rest of the log, in order.
  const std::vector<Line>& log() const { return log_; }

 private:
  static const void* get_service(const soot_host_t* host, const char* id) noexcept;
  static void write(const soot_host_t* host, std::int32_t severity, const char* text) noexcept;
  static const char* folder(const soot_host_t* host, std::uint32_t index) noexcept;

  soot_host_t handle_;
  std::vector<std::string> folders_;
  std::vector<Line> log_;
};

}  // namespace soot::host
