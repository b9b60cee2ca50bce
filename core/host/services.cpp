#include "core/host/services.hpp"

#include "core/host/plugin_text.hpp"

#include <algorithm>
#include <string_view>

namespace soot::host {

Services::Services(const std::vector<std::filesystem::path>& folders)
    : handle_{SOOT_ABI_MAJOR, SOOT_ABI_MINOR, this, get_service} {
  for (const std::filesystem::path& folder : folders)
    folders_.push_back(folder.string());
}

std::string Services::take_reason() {
  const auto last = std::find_if(log_.rbegin(), log_.rend(),
                                 [](const Line& line) { return line.severity == Severity::error; });
  if (last == log_.rend()) return "no reason given";
  std::string reason = last->text;
  log_.erase(std::next(last).base());
  return reason;
}

const void* Services::get_service(const soot_host_t*, const char* id) noexcept {
  static constexpr soot_log_t log_service{write};
  static constexpr soot_folders_t folders_service{folder};
  const std::string_view asked = id == nullptr ? "" : id;
  if (asked == SOOT_LOG) return &log_service;
  if (asked == SOOT_FOLDERS) return &folders_service;
  return nullptr;
}

void Services::write(const soot_host_t* host, std::int32_t severity, const char* text) noexcept {
  constexpr std::size_t most_lines = 20;
  auto& log = static_cast<Services*>(host->self)->log_;
  if (log.size() >= most_lines) return;
  log.push_back({severity == SOOT_NOTE ? Severity::note : Severity::error, tidy(text)});
}

const char* Services::folder(const soot_host_t* host, std::uint32_t index) noexcept {
  const auto& folders = static_cast<const Services*>(host->self)->folders_;
  return index < folders.size() ? folders[index].c_str() : nullptr;
}

}  // namespace soot::host
