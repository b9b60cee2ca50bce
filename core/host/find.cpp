#include "core/host/find.hpp"

#include "core/base/append.hpp"
#include "core/host/consent.hpp"
#include "core/host/trouble.hpp"

#include <algorithm>
#include <system_error>

namespace soot::host {

namespace fs = std::filesystem;

namespace {
using Entries = std::vector<fs::path>;

Entries sorted_entries(const fs::path& folder, std::error_code& failed) {
  Entries entries;
  for (fs::directory_iterator at(folder, failed), end; !failed && at != end; at.increment(failed))
    entries.push_back(at->path());
  std::sort(entries.begin(), entries.end());
  return entries;
}

bool is_library(const fs::path& path) {
  std::error_code ignored;
  return path.extension() == ".so" && !fs::is_directory(path, ignored);
}

bool is_plugin(const fs::path& folder) {
  std::error_code unreadable;
  const Entries entries = sorted_entries(folder, unreadable);
  return unreadable || std::any_of(entries.begin(), entries.end(), [](const fs::path& entry) {
           return is_library(entry) || entry.filename() == "plugin.toml";
         });
}

void add(const fs::path& folder, Found& found) {
  Result<Manifest> manifest = read_manifest(folder);
  if (!manifest) {
    append(found.problems, manifest.error());
    return;
  }
  const auto first = std::find_if(found.manifests.begin(), found.manifests.end(),
                                  [&](const Manifest& m) { return m.id == manifest->id; });
  if (first == found.manifests.end())
    found.manifests.push_back(std::move(*manifest));
  else
    found.problems.push_back(
        trouble_at(folder,
                   fmt::format("plugin {} is passed over: the one in {} comes first", manifest->id,
                               first->folder.string()),
                   Severity::note));
}

// `plugin remove` forgets what was added, note and link; a link of the user's own he deletes.
std::string way_out(const fs::path& link) {
  fs::path note = link;
  note += note_ending;
  std::error_code ignored;
  return fs::exists(note, ignored)
             ? fmt::format("use it no longer: sootsayer plugin remove {}", link.filename().string())
             : "delete this link";
}

void look_through(const fs::path& folder, Found& found) {
  std::error_code failed;
  const Entries entries = sorted_entries(folder, failed);
  if (failed) {
    found.problems.push_back(trouble_at(
        folder, fmt::format("not to be read as a folder of plugins ({})", failed.message())));
    return;
  }
  for (const fs::path& entry : entries) {
    const std::string name = entry.filename().string();
    std::error_code ignored;
    if (name.front() == '.' || name.front() == '@') continue;
    if (fs::is_symlink(entry, ignored) && !fs::exists(entry, ignored))
      found.problems.push_back(trouble_at(
          entry, fmt::format("leads nowhere: {} is gone (put it back, or {})",
                             fs::read_symlink(entry, ignored).string(), way_out(entry))));
    else if (is_library(entry))
      found.problems.push_back(
          trouble_at(entry, "a library by itself (expected a folder with it and plugin.toml)"));
    else if (fs::is_directory(entry, ignored) && is_plugin(entry))
      add(entry, found);
  }
}
}  // namespace

Found find_plugins(const std::vector<fs::path>& folders) {
  Found found;
  for (const fs::path& folder : folders)
    look_through(folder, found);
  return found;
}

}  // namespace soot::host
