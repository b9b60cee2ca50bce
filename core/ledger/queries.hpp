// The questions put to the ledger's tables, one function each. Inside core/ledger only; all throw
// SQLite::Exception, which the Ledger turns into a sentence.
#pragma once

#include "core/base/problem.hpp"
#include "core/ledger/entry.hpp"
#include "core/ledger/header.hpp"

#include <SQLiteCpp/Database.h>

#include <optional>
#include <vector>

namespace soot::ledger {

/// Fails (Kind::use) on a number that no job has.
Result<Header> find_job(const SQLite::Database& database, long number);

std::vector<Summary> list_jobs(const SQLite::Database& database, Which which);

std::optional<long> find_current(const SQLite::Database& database);

/// Fails (Kind::trouble) on a line that this program could not have written.
Result<std::vector<Entry>> list_entries(const SQLite::Database& database, long job);

}  // namespace soot::ledger
