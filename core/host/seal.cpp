#include "core/host/seal.hpp"

#include "core/base/text.hpp"
#include "core/host/plugin_text.hpp"
#include "core/host/trouble.hpp"

#include <algorithm>
#include <array>
#include <fstream>
#include <sha2.h>
#include <sstream>
#include <system_error>

namespace soot::host {

namespace fs = std::filesystem;

namespace {
constexpr std::size_t most_files = 200;
constexpr std::uintmax_t most_bytes = 64'000'000;
constexpr std::size_t hex_size = 64;

std::string hex_sum(const fs::path& file) {
  std::array<char, hex_size + 1> hex{};
  return SHA256File(file.c_str(), hex.data()) == nullptr ? "" : std::string(hex.data());
}

bool is_hex(std::string_view word) {
  return word.size() == hex_size && word.find_first_not_of("0123456789abcdef") == word.npos;
}
}  // namespace

Result<Seal> take_seal(const fs::path& folder) {
  Seal seal;
  std::uintmax_t bytes = 0;
  std::error_code failed;
  fs::recursive_directory_iterator at(folder, failed), end;
  for (; !failed && at != end; at.increment(failed)) {
    const fs::path& path = at->path();
    const std::string name = path.lexically_relative(folder).generic_string();
    if (path.filename().string().front() == '.') {
      at.disable_recursion_pending();
      continue;
    }
    if (fs::is_directory(at->symlink_status(failed)) || name == seal_name) continue;
    if (failed || !at->is_regular_file(failed))
      return stopped_at(path, "is no file (expected files and folders in a plugin's folder)");
    bytes += at->file_size(failed);
    if (seal.size() == most_files || bytes > most_bytes)
      return stopped_at(folder, "is too much for a plugin (expected at most 200 files and 64 MB)");
    seal[name] = hex_sum(path);
    if (seal[name].empty()) return stopped_at(path, "cannot be read");
  }
  if (failed) return stopped_at(folder, "cannot be read: " + failed.message());
  return seal;
}

Result<Seal> read_seal(const fs::path& file, const std::string& prefix) {
  std::error_code ignored;
  if (!fs::is_regular_file(file, ignored)) return stopped_at(file, "no such file");
  std::ifstream stream(file);
  Seal seal;
  int number = 0;
  for (std::string line; std::getline(stream, line);) {
    ++number;
    const std::string_view all = line;
    const std::string_view hex = all.substr(0, hex_size);
    const std::string before = "  " + prefix;
    const bool is_good = is_hex(hex) && seal.size() < most_files &&
                         all.substr(hex_size).starts_with(before) &&
                         all.size() > hex_size + before.size();
    if (!is_good) {
      Problems why = stopped_at(file, "is no sum and name (expected lines of sha256sum)").value();
      why.front().place.line = number;
      return tl::unexpected(std::move(why));
    }
    seal.emplace(all.substr(hex_size + before.size()), hex);
  }
  if (seal.empty()) return stopped_at(file, "is empty (expected lines of sha256sum)");
  return seal;
}

std::string to_text(const Seal& seal, const std::string& prefix) {
  std::string text;
  for (const auto& [name, hex] : seal)
    text += hex + "  " + prefix + name + "\n";
  return text;
}

std::string difference(const Seal& was, const Seal& is) {
  for (const auto& [name, hex] : was) {
    const auto found = is.find(name);
    if (found == is.end()) return tidy(name.c_str()) + " is gone";
    if (found->second != hex) return tidy(name.c_str()) + " has changed";
  }
  for (const auto& [name, hex] : is)
    if (was.find(name) == was.end()) return tidy(name.c_str()) + " is new";
  return "";
}

}  // namespace soot::host
