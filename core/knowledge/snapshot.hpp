// The knowledge as it was last read and found sound, in one file, so that the next start need not
// parse and check some hundred and fifty. It speaks for just those files and just this build of the
// program; anything else, or damage, and the files are read again.
#pragma once

#include "core/knowledge/loader.hpp"

#include <ctime>
#include <filesystem>
#include <functional>
#include <optional>
#include <string>

namespace soot {

/// What a snapshot depends on: this build of the program, and each *.toml below the folder, by
/// path, device, number, size and the times of its last change. The system itself keeps one of
/// these times; what changes a file behind its back (a map of it that is still to be written out, a
/// device that keeps no such time) is not seen.
struct Stamp {
  std::string text;
  std::time_t youngest = 0;  ///< last change of any of the files, seconds since the epoch

  /// `now`: before the files were asked, seconds since the epoch. Nothing that changes from then on
  /// could bear the same times: the clock of files goes in steps, and two seconds are more than
  /// any.
  bool is_settled(std::time_t now) const { return now - youngest > 2; }
};

/// Nothing where a file cannot be asked, or the program has no id of its build.
std::optional<Stamp> stamp_of(const std::filesystem::path& folder);

/// The snapshot in `file`, if it was written for this stamp and is whole.
std::optional<LoadedKnowledge> read_snapshot(const std::filesystem::path& file, const Stamp& stamp);

/// Writes it beside `file` and puts it in its place; folders on the way are made, for this user
/// alone. Where that does not succeed nobody need know: the next start is slower. Only a program
/// that is killed meanwhile leaves its beginning behind.
void write_snapshot(const std::filesystem::path& file, const Stamp& stamp,
                    const LoadedKnowledge& loaded);

using ReadKnowledge = std::function<Result<LoadedKnowledge>(const std::filesystem::path& folder)>;

/// The knowledge in `folder`: from the snapshot in `file`, else by `read`, and then kept there if
/// its files are settled. `now`: seconds since the epoch.
Result<LoadedKnowledge> by_snapshot(const std::filesystem::path& folder,
                                    const std::filesystem::path& file, std::time_t now,
                                    const ReadKnowledge& read);

}  // namespace soot
