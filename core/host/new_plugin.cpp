#include "core/host/new_plugin.hpp"

#include "core/host/plugin_text.hpp"
#include "core/host/trouble.hpp"

#include <fstream>
#include <sstream>
#include <system_error>

namespace soot::host {

namespace fs = std::filesystem;

namespace {
std::string renamed(std::string text, const std::string& id) {
  const std::string word = template_word;
  for (std::size_t at = text.find(word); at != std::string::npos;
       at = text.find(word, at + id.size()))
    text.replace(at, word.size(), id);
  return text;
}
}  // namespace

Result<fs::path> new_plugin(const fs::path& from, const fs::path& to, const std::string& id) {
  if (!is_id(id))
    return fail(Kind::use, "'{}' is no name (expected small letters, digits and hyphens)",
                tidy(id.c_str()));
  std::error_code failed;
  const fs::path folder = to / id;
  if (fs::exists(fs::symlink_status(folder, failed)))
    return fail(Kind::use, "{} is there already (expected a new name)", folder.string());
  if (!fs::is_directory(from, failed))
    return stopped_at(from, "the template is not there (expected it where the program came from)");
  fs::create_directories(folder, failed);
  for (fs::recursive_directory_iterator at(from, failed), end; !failed && at != end;
       at.increment(failed)) {
    const fs::path target =
        folder / renamed(at->path().lexically_relative(from).generic_string(), id);
    if (at->is_directory(failed)) {
      fs::create_directories(target, failed);
      continue;
    }
    std::ostringstream text;
    text << std::ifstream(at->path(), std::ios::binary).rdbuf();
    std::ofstream out(target, std::ios::binary);
    out << renamed(text.str(), id);
    out.close();
    if (!out) return stopped_at(target, "cannot be written");
  }
  if (failed) return stopped_at(folder, failed.message());
  return folder;
}

}  // namespace soot::host
