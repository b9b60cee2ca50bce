// Families that need no arithmetic of their own: every families/NAME.toml is the family NAME. The
// plugin hands the text over unread; the program reads it, sees that [family] id is NAME, and names
// what is wrong by line, so that a broken file hides only itself.
#include <sootsayer/plugin.hpp>

#include <algorithm>
#include <filesystem>
#include <string>
#include <system_error>
#include <vector>

namespace {

namespace fs = std::filesystem;

std::vector<fs::path> family_files(const fs::path& folder) {
  std::vector<fs::path> files;
  std::error_code ended;  // also where there is no such folder, which is nothing to complain of
  for (fs::directory_iterator at(folder, ended), end; !ended && at != end; at.increment(ended))
    if (at->path().extension() == ".toml" && at->path().filename().string().front() != '.')
      files.push_back(at->path());
  std::sort(files.begin(), files.end());
  return files;
}

std::string read_family(const fs::path& file) {
  constexpr std::uintmax_t most_bytes = 2'000'000;
  if (!fs::is_regular_file(file)) throw std::runtime_error("not a file");
  if (fs::file_size(file) > most_bytes) throw std::runtime_error("longer than 2 000 000 bytes");
  return soot_sdk::read_file(file.string());
}

void add_families(const soot_sdk::Host& host, const fs::path& folder, bool own_folder,
                  soot_sdk::Families& families) {
  for (const fs::path& file : family_files(folder / "families")) {
    const std::string name = own_folder ? "families/" + file.filename().string() : file.string();
    try {
      families.push_back(
          std::make_unique<soot_sdk::Family>(file.stem().string(), name, read_family(file)));
    } catch (const std::exception& refused) {
      host.error(name + " left out: " + refused.what());
    }
  }
}

soot_sdk::Families make_families(const soot_sdk::Host& host) {
  soot_sdk::Families families;
  const std::vector<std::string> folders = host.folders();
  // What the person wrote himself goes before what came with the program: the first of an id
  // counts.
  for (std::size_t i = 1; i < folders.size(); ++i)
    add_families(host, folders[i], false, families);
  if (!folders.empty()) add_families(host, folders.front(), true, families);
  return families;
}

}  // namespace

SOOT_PLUGIN(SOOT_PLUGIN_ID, SOOT_PLUGIN_VERSION, make_families)
