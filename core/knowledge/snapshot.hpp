// The knowledge as it was last read and found sound, in one file, so that the next start need not
// parse and check some hundred and fifty. It speaks for just those files and just the program that
// wrote it; anything else, or damage, and the files are read again.
#pragma once

#include "core/knowledge/loader.hpp"

#include <ctime>
#include <filesystem>
#include <optional>
#include <string>

namespace soot {

/// What a snapshot depends on: each *.toml below the folder, and this program, by path, number,
/// size and the time of their last change as the system keeps it (nobody can set that back).
struct Stamp {
  std::string text;
  std::time_t youngest = 0;  ///< last change of any of the files

  /// Nothing that changes from now on could bear the same times. The clock of files goes in steps;
  /// two seconds are more than any.
  bool is_settled(std::time_t now) const { return now - youngest > 2; }
};

/// Nothing where a file cannot be asked.
std::optional<Stamp> stamp_of(const std::filesystem::path& folder);

/// The snapshot in `file`, if it was written for this stamp and is whole.
std::optional<LoadedKnowledge> read_snapshot(const std::filesystem::path& file, const Stamp& stamp);

/// Writes it beside `file` and puts it in its place; folders on the way are made. Where that does
/// not succeed nothing is left behind, and nobody need know: the next start is slower.
void write_snapshot(const std::filesystem::path& file, const Stamp& stamp,
                    const LoadedKnowledge& loaded);

}  // namespace soot
