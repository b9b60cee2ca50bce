// Opens the ledger's file and brings it to this program's version. Nothing outside core/ledger (and
// its tests) includes this: the wrapper's types stay inside.
#pragma once

#include "core/base/problem.hpp"
#include "core/ledger/mode.hpp"

#include <SQLiteCpp/Database.h>

#include <chrono>
#include <filesystem>
#include <span>

namespace soot::ledger {

/// In Mode::write the file and its folder are made if need be, and a file of an older version is
/// copied to `FILE.version-N` and then brought up, all steps in one transaction. In Mode::read
/// nothing is changed. `steps` lead from an empty file to the present version (schema.hpp).
/// Waits up to `patience` for another program's lock.
Result<SQLite::Database> open_database(const std::filesystem::path& file, Mode mode,
                                       std::chrono::milliseconds patience,
                                       std::span<const char* const> steps);

}  // namespace soot::ledger
