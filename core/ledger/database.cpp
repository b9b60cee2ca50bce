#include "core/ledger/database.hpp"

#include "core/ledger/schema.hpp"
#include "core/ledger/trouble.hpp"

#include <SQLiteCpp/Backup.h>
#include <SQLiteCpp/Transaction.h>

#include <sqlite3.h>
#include <string>
#include <system_error>
#include <utility>

namespace soot::ledger {
namespace {

namespace fs = std::filesystem;

tl::unexpected<Problems> refuse(const fs::path& file, std::string text) {
  return tl::unexpected<Problems>(Problems{trouble_at(file, std::move(text))});
}

long number_from(SQLite::Database& database, const char* query) {
  return database.execAndGet(query).getInt64();
}

/// The place where the file shall be, or why there is none.
Result<void> prepare_place(const fs::path& file, Mode mode) {
  std::error_code ignored;
  if (fs::is_directory(file, ignored))
    return refuse(file, "this is a folder (expected the ledger's file)");
  if (mode == Mode::read) {
    if (fs::exists(file, ignored)) return {};
    return refuse(file, "there is no ledger yet (expected one: opening a job makes it)");
  }
  std::error_code error;
  fs::create_directories(file.parent_path(), error);
  if (error)
    return refuse(file.parent_path(),
                  fmt::format("the ledger's folder cannot be made: {}", error.message()));
  return {};
}

/// The file's name as a URI that says: read it as it stands, nobody writes to it.
std::string uri_as_it_stands(const fs::path& file) {
  std::string uri = "file:";
  for (const char c : file.string())
    uri += c == '%' || c == '?' || c == '#' ? fmt::format("%{:02x}", c) : std::string{c};
  return uri + "?immutable=1";
}

/// In a folder that may not be written, as on a read-only disk, SQLite cannot set up what readers
/// and writers share. The file is then read as it stands; not so if a log lies beside it, since the
/// lines in that would be missed.
SQLite::Database connect_for_reading(const fs::path& file, int patience_ms) {
  SQLite::Database database(file, SQLite::OPEN_READONLY, patience_ms);
  const int answer = database.tryExec("PRAGMA user_version") & 0xff;
  const bool is_shut_out = answer == SQLITE_READONLY || answer == SQLITE_CANTOPEN;
  std::error_code ignored;
  if (!is_shut_out || fs::exists(fs::path{file} += "-wal", ignored)) return database;
  return SQLite::Database(uri_as_it_stands(file), SQLite::OPEN_READONLY | SQLite::OPEN_URI,
                          patience_ms);
}

/// The version of a ledger, 0 of an empty file. Refuses what is not a ledger, or a newer one.
Result<long> version_of(const fs::path& file, SQLite::Database& database, long known) {
  const long version = number_from(database, "PRAGMA user_version");
  const long owner = number_from(database, "PRAGMA application_id");
  const bool is_empty = version == 0 && owner == 0 &&
                        number_from(database, "SELECT count(*) FROM sqlite_schema") == 0;
  if (!is_empty && owner != application_id)
    return refuse(file, "this database is another program's (expected a ledger)");
  if (version > known)
    return refuse(file, fmt::format("the ledger is of version {}, made by a newer program "
                                    "(expected at most version {})",
                                    version, known));
  return version;
}

/// Its questions see one state of the file, though another program may be filling it just now.
Result<long> version_at_one_moment(const fs::path& file, SQLite::Database& database, long known) {
  const SQLite::Transaction moment(database);
  return version_of(file, database, known);
}

/// Copies through a connection of its own, since the one that holds the transaction may not.
void back_up(const fs::path& file, const fs::path& copy) {
  SQLite::Database source(file, SQLite::OPEN_READONLY);
  SQLite::Database target(copy, SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
  const int answer = SQLite::Backup(target, source).executeStep();
  if (answer != SQLITE_DONE) throw SQLite::Exception("the copy was not finished", answer);
}

Result<void> bring_up(const fs::path& file, SQLite::Database& database,
                      std::span<const char* const> steps) {
  // The version is asked again under the lock: another program may have been faster.
  SQLite::Transaction transaction(database, SQLite::TransactionBehavior::IMMEDIATE);
  const long known = static_cast<long>(steps.size());
  const Result<long> version = version_of(file, database, known);
  if (!version) return pass_on(version);
  if (*version > 0 && *version < known)
    back_up(file, fs::path{file} += fmt::format(".version-{}", *version));
  for (const char* step : steps.subspan(static_cast<std::size_t>(*version)))
    database.exec(step);
  database.exec(fmt::format("PRAGMA user_version = {}", known));
  transaction.commit();
  return {};
}

/// Readers then need not wait for a writer. Where the disk cannot (a network share), or another
/// program is at work just now, the journal stays as it is, which is safe as well.
void prefer_write_ahead_log(SQLite::Database& database) {
  database.tryExec("PRAGMA journal_mode = WAL");
}

Result<void> make_ready(const fs::path& file, SQLite::Database& database, Mode mode,
                        std::span<const char* const> steps) {
  const long known = static_cast<long>(steps.size());
  const Result<long> version = version_at_one_moment(file, database, known);
  if (!version) return pass_on(version);
  if (mode == Mode::read) {
    if (*version == known) return {};
    if (*version == 0)
      return refuse(file, "the ledger is empty (expected one: opening a job fills it)");
    return refuse(file, fmt::format("the ledger is of version {} (expected {}: any command that "
                                    "writes brings it up)",
                                    *version, known));
  }
  if (sqlite3_db_readonly(database.getHandle(), "main") == 1)
    return tl::unexpected<Problems>(Problems{trouble_of(file, SQLITE_READONLY, "")});
  prefer_write_ahead_log(database);
  if (*version < known) {
    const Result<void> done = bring_up(file, database, steps);
    if (!done) return done;
  }
  database.exec("PRAGMA foreign_keys = ON");
  return {};
}

}  // namespace

Result<SQLite::Database> open_database(const fs::path& file, Mode mode,
                                       std::chrono::milliseconds patience,
                                       std::span<const char* const> steps) {
  const Result<void> place = prepare_place(file, mode);
  if (!place) return pass_on(place);
  try {
    const int patience_ms = static_cast<int>(patience.count());
    SQLite::Database database =
        mode == Mode::read
            ? connect_for_reading(file, patience_ms)
            : SQLite::Database(file, SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE, patience_ms);
    const Result<void> ready = make_ready(file, database, mode, steps);
    if (!ready) return pass_on(ready);
    return database;
  } catch (const SQLite::Exception& exception) {
    return tl::unexpected<Problems>(Problems{trouble_of(file, exception)});
  }
}

}  // namespace soot::ledger
