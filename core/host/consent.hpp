// Which plugins may be loaded: those that came with the program, as it was built, and those that
// the person added, as they were when added. Nothing of a plugin runs to find out.
#pragma once

#include "core/base/problem.hpp"
#include "core/host/manifest.hpp"
#include "core/host/seal.hpp"

#include <filesystem>
#include <string>
#include <vector>

namespace soot::host {

/// What follows the id in the name of the note on a plugin that was added.
inline constexpr const char* note_ending = ".sha256";

/// A plugin's right to be loaded. `why_not` is empty if it has it.
struct Standing {
  Manifest manifest;
  bool came_with_program = false;
  std::string why_not;  ///< "has not been added", "winch.so has changed since it was added"

  bool may_load() const { return why_not.empty(); }
};

/// One that came with the program: held against the seal in its folder.
Standing judge_own(const Manifest& manifest);

/// Any other: held against what was noted in the folder `added` when it was added.
Standing judge_other(const Manifest& manifest, const std::filesystem::path& added);

/// What is said of one that may not be loaded, with what to do; a note if it was never added.
Problem refusal_of(const Standing& standing);

/// Notes in `added` that the plugin as sealed is wanted, and leads the search there to its folder
/// if it stands elsewhere. Takes the place of an earlier note on the same id.
Result<void> note_consent(const Manifest& manifest, const Seal& seal,
                          const std::filesystem::path& added);

/// Ids that were added, in alphabetical order.
std::vector<std::string> added_ids(const std::filesystem::path& added);

/// Takes the note back, and the link that leads to the folder; the folder itself is left alone.
/// Fails (Kind::use) if nothing of that id was added, with the nearest one.
Result<void> forget_consent(const std::string& id, const std::filesystem::path& added);

}  // namespace soot::host
