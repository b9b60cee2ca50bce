#include "core/host/consent.hpp"

#include "core/base/text.hpp"
#include "core/host/trouble.hpp"

#include <algorithm>
#include <fstream>
#include <system_error>

namespace soot::host {

namespace fs = std::filesystem;

namespace {
fs::path note_of(const std::string& id, const fs::path& added) {
  return added / (id + note_ending);
}

// Of a folder that was added: where the link among the added ones leads.
std::string own_place(const fs::path& folder) {
  std::error_code failed;
  const fs::path target = fs::read_symlink(folder, failed);
  return failed ? folder.string() : target.string();
}

/// "" if the folder is as `sealed` says.
std::string change_since(const Result<Seal>& sealed, const fs::path& folder, const char* event) {
  if (!sealed) return to_string(sealed.error());
  const Result<Seal> now = take_seal(folder);
  if (!now) return to_string(now.error());
  const std::string change = difference(*sealed, *now);
  return change.empty() ? "" : fmt::format("{} since {}", change, event);
}
}  // namespace

Standing judge_own(const Manifest& manifest) {
  return {manifest, true,
          change_since(read_seal(manifest.folder / seal_name), manifest.folder,
                       "the program was built")};
}

Standing judge_other(const Manifest& manifest, const fs::path& added) {
  std::error_code ignored;
  const fs::path note = note_of(manifest.id, added);
  if (!fs::exists(note, ignored)) return {manifest, false, "has not been added"};
  return {manifest, false,
          change_since(read_seal(note, manifest.id + "/"), manifest.folder, "it was added")};
}

Problem refusal_of(const Standing& standing) {
  const Manifest& manifest = standing.manifest;
  if (standing.came_with_program)
    return trouble_at(manifest.main_file(), fmt::format("plugin {} left out: {} (install or build "
                                                        "the program anew)",
                                                        manifest.id, standing.why_not));
  Problem problem =
      trouble_at(manifest.main_file(),
                 fmt::format("plugin {} left out: {} (to use it: sootsayer plugin add {})",
                             manifest.id, standing.why_not, own_place(manifest.folder)));
  if (standing.why_not == "has not been added") problem.severity = Severity::note;
  return problem;
}

Result<void> note_consent(const Manifest& manifest, const Seal& seal, const fs::path& added) {
  std::error_code failed;
  fs::create_directories(added, failed);
  const fs::path here = added / manifest.id;
  const fs::path folder = fs::canonical(manifest.folder, failed);
  if (!failed && fs::weakly_canonical(here, failed) != folder) {
    if (fs::is_symlink(here, failed)) fs::remove(here, failed);
    if (fs::exists(here, failed))
      return tl::unexpected(Problems{
          trouble_at(here, "stands in the way (expected no other folder of this plugin there)")});
    fs::create_directory_symlink(folder, here, failed);
  }
  if (failed) return stopped_at(here, failed.message());
  const fs::path note = note_of(manifest.id, added);
  std::ofstream stream(note);
  stream << to_text(seal, manifest.id + "/");
  stream.close();
  if (!stream) return stopped_at(note, "cannot be written");
  return {};
}

std::vector<std::string> added_ids(const fs::path& added) {
  std::vector<std::string> ids;
  std::error_code ignored;
  for (const auto& entry : fs::directory_iterator(added, ignored))
    if (entry.path().extension() == note_ending) ids.push_back(entry.path().stem().string());
  std::sort(ids.begin(), ids.end());
  return ids;
}

Result<void> forget_consent(const std::string& id, const fs::path& added) {
  const std::vector<std::string> ids = added_ids(added);
  if (std::find(ids.begin(), ids.end(), id) == ids.end())
    return fail(Kind::use, "plugin {} has not been added{}", id, did_you_mean(id, ids));
  std::error_code failed;
  const fs::path link = added / id;
  if (fs::is_symlink(link, failed)) fs::remove(link, failed);
  if (fs::symlink_status(link, failed).type() == fs::file_type::not_found) failed.clear();
  if (!failed) fs::remove(note_of(id, added), failed);
  if (failed) return stopped_at(link, failed.message());
  return {};
}

}  // namespace soot::host
