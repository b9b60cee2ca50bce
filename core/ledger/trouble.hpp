// What the database complains of, as one sentence that a person can act on. Inside core/ledger
// only.
#pragma once

#include "core/base/problem.hpp"

#include <SQLiteCpp/Exception.h>

#include <filesystem>
#include <string>
#include <string_view>

namespace soot::ledger {

/// `code` is a result code of SQLite, plain or extended; `words` are its own, used where we have
/// no better. Kind::trouble, placed at `file`.
Problem trouble_of(const std::filesystem::path& file, int code, std::string_view words);
Problem trouble_of(const std::filesystem::path& file, const SQLite::Exception& exception);

/// A sentence of our own about the ledger, Kind::trouble, placed at `file`.
Problem trouble_at(const std::filesystem::path& file, std::string text);

}  // namespace soot::ledger
