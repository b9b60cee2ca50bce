#include "core/host/library.hpp"

#include "core/host/plugin_text.hpp"

#include <boost/dll/shared_library.hpp>

#include <dlfcn.h>
#include <string>
#include <system_error>

namespace soot::host {

namespace fs = std::filesystem;

namespace {
/// What the loader said, without the names of the functions and the path around it.
std::string loaders_words(std::string text, const fs::path& file) {
  const auto cut_before = [&](const std::string& mark) {
    if (const auto at = text.find(mark); at != std::string::npos) text.erase(0, at + mark.size());
  };
  cut_before("dlerror system message: ");
  cut_before(file.string() + ": ");
  if (const auto end = text.rfind("): "); end != std::string::npos) text.erase(end);
  return tidy(text.c_str());
}

Result<const soot_entry_t*> load(const fs::path& file) {
  std::error_code ignored;
  if (!fs::exists(file, ignored))
    return fail(Kind::trouble, "there is no {}", file.filename().string());
  if (!fs::is_regular_file(file, ignored))  // a pipe would never end
    return fail(Kind::trouble, "{} is no file", file.filename().string());
  using boost::dll::load_mode::type;
  // Every symbol bound now, or refused. Never unloaded: what came out of it (an exception, a text)
  // may live longer than the handle, which is dropped below.
  const type mode = boost::dll::load_mode::rtld_now | boost::dll::load_mode::rtld_local |
                    static_cast<type>(RTLD_NODELETE);
  try {
    const boost::dll::shared_library library(fs::absolute(file), mode);
    if (!library.has("soot_entry"))
      return fail(Kind::trouble, "{} has no soot_entry", file.filename().string());
    return &library.get<const soot_entry_t>("soot_entry");
  } catch (const std::exception& refused) {
    return fail(Kind::trouble, "{} cannot be loaded ({})", file.filename().string(),
                loaders_words(refused.what(), fs::absolute(file)));
  }
}

/// The entry, if it will do. Reads the numbers first: of another major version only they are
/// where this header says.
Result<const soot_entry_t*> accept(const soot_entry_t& entry, const Manifest& manifest) {
  if (entry.abi_major != SOOT_ABI_MAJOR)
    return fail(Kind::trouble, "built for plugin ABI {} (this program speaks ABI {})",
                entry.abi_major, SOOT_ABI_MAJOR);
  if (entry.needs_host_minor > SOOT_ABI_MINOR)
    return fail(Kind::trouble, "needs a newer program (plugin ABI {}.{}, this one speaks {}.{})",
                SOOT_ABI_MAJOR, entry.needs_host_minor, SOOT_ABI_MAJOR, SOOT_ABI_MINOR);
  if (entry.entry_size != sizeof(soot_entry_t))
    return fail(Kind::trouble, "its entry has {} bytes (expected {})", entry.entry_size,
                sizeof(soot_entry_t));
  if (!entry.plugin_id || !entry.plugin_version || !entry.init || !entry.deinit ||
      !entry.get_factory)
    return fail(Kind::trouble, "its entry has gaps (expected id, version and three functions)");
  if (manifest.id.empty()) return &entry;  // a library by itself: there is nothing to compare
  if (entry.plugin_id != manifest.id)
    return fail(Kind::trouble, "its library says it is {} (expected {}, as in plugin.toml)",
                tidy(entry.plugin_id), manifest.id);
  if (entry.plugin_version != manifest.version)
    return fail(Kind::trouble, "its library has version {} (expected {}, as in plugin.toml)",
                tidy(entry.plugin_version), manifest.version);
  return &entry;
}
}  // namespace

Result<const soot_entry_t*> load_entry(const Manifest& manifest) {
  if (manifest.abi != SOOT_ABI_MAJOR)  // said politely, before any of its code runs
    return fail(Kind::trouble, "built for plugin ABI {} (this program speaks ABI {})", manifest.abi,
                SOOT_ABI_MAJOR);
  const Result<const soot_entry_t*> entry = load(manifest.binary_path());
  return entry ? accept(**entry, manifest) : entry;
}

}  // namespace soot::host
