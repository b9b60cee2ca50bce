#include "core/host/text_families.hpp"

#include "core/table/reader.hpp"

#include <algorithm>
#include <fstream>
#include <sstream>
#include <system_error>

namespace soot::host {

namespace fs = std::filesystem;

namespace {
std::vector<fs::path> family_files(const fs::path& folder) {
  std::vector<fs::path> files;
  std::error_code ended;  // also where there is no such folder, which is nothing to complain of
  for (fs::directory_iterator at(folder / "families", ended), end; !ended && at != end;
       at.increment(ended))
    if (at->path().extension() == ".toml" && at->path().filename().string().front() != '.')
      files.push_back(at->path());
  std::sort(files.begin(), files.end());
  return files;
}

Result<std::string> read_text(const fs::path& file) {
  std::error_code failed;
  if (!fs::is_regular_file(file, failed))  // a pipe would never end
    return fail(Kind::trouble, "left out: it is no file");
  if (fs::file_size(file, failed) > Document::max_bytes)
    return fail(Kind::trouble, "left out: it is longer than {} bytes", Document::max_bytes);
  std::ostringstream text;
  const std::ifstream stream(file, std::ios::binary);
  if (!stream || !(text << stream.rdbuf())) return fail(Kind::trouble, "left out: cannot be read");
  return text.str();
}

void serve_folder(const Manifest& manifest, const fs::path& folder, bool is_own,
                  std::vector<ServedFamily>& served, Problems& problems) {
  for (const fs::path& file : family_files(folder)) {
    Result<std::string> text = read_text(file);
    if (!text) {
      problems.push_back(text.error().front());
      problems.back().place.file = file.string();
      continue;
    }
    served.push_back({file.stem().string(), std::move(*text),
                      is_own ? file.string() : "families/" + file.filename().string(), manifest.id,
                      manifest.version, nullptr});
  }
}
}  // namespace

std::vector<ServedFamily> serve_text(const Manifest& manifest,
                                     const std::vector<fs::path>& own_folders, Problems& problems) {
  std::vector<ServedFamily> served;
  if (manifest.serves_own)
    for (const fs::path& folder : own_folders)
      serve_folder(manifest, folder, true, served, problems);
  serve_folder(manifest, manifest.folder, false, served, problems);
  return served;
}

}  // namespace soot::host
