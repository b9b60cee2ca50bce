// What may be added to the ledger's tables, and when. Inside core/ledger only. Each must run inside
// a transaction that the caller holds; a failure (Kind::use) leaves it to the caller to roll back.
// All throw SQLite::Exception.
#pragma once

#include "core/base/problem.hpp"
#include "core/ledger/entry.hpp"
#include "core/ledger/header.hpp"

#include <SQLiteCpp/Database.h>

#include <string>

namespace soot::ledger {

/// Returns the new job's number.
Result<long> add_job(SQLite::Database& database, const std::string& at, const NewJob& job);

Result<void> make_current(SQLite::Database& database, long job);

/// Returns the new line's number.
Result<long> add_line(SQLite::Database& database, const std::string& at, long job,
                      const Payload& payload);

}  // namespace soot::ledger
