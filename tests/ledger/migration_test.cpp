// Bringing an older ledger to the present version: copied aside first, all steps or none.
#include "core/ledger/database.hpp"
#include "core/ledger/ledger.hpp"
#include "core/ledger/schema.hpp"
#include "tests/ledger/temp_folder.hpp"

#include <doctest/doctest.h>

#include <vector>

namespace soot::ledger::test {
namespace {

namespace fs = std::filesystem;

using Steps = std::vector<const char*>;

Steps steps_and(std::initializer_list<const char*> more) {
  Steps steps(schema_steps.begin(), schema_steps.end());
  steps.insert(steps.end(), more);
  return steps;
}

Result<SQLite::Database> open_with(const fs::path& file, const Steps& steps,
                                   Mode mode = Mode::write) {
  return open_database(file, mode, std::chrono::milliseconds{20}, steps);
}

long version_in(const fs::path& file) {
  return SQLite::Database(file).execAndGet("PRAGMA user_version").getInt64();
}

void make_ledger(const fs::path& file) {
  Ledger ledger = Ledger::open(file, Mode::write, ticking_clock()).value();
  CHECK(ledger.open_job({"hagmoss-4", "1", "tabular", "1", ""}));
  CHECK(ledger.append(1, Noted{"kept"}));
}

const std::size_t present = schema_steps.size();

fs::path copy_of(const fs::path& file) {
  return fs::path{file} += ".version-" + std::to_string(present);
}

TEST_CASE("a new ledger has the version of the last step and no copy") {
  const TempFolder folder;
  make_ledger(folder.file());
  CHECK(version_in(folder.file()) == static_cast<long>(present));
  CHECK_FALSE(fs::exists(copy_of(folder.file())));
}

TEST_CASE("an older ledger is copied and brought up by all the steps it lacks") {
  const TempFolder folder;
  make_ledger(folder.file());
  const Steps steps =
      steps_and({"CREATE TABLE shelf (a TEXT) STRICT", "ALTER TABLE shelf ADD COLUMN b TEXT"});
  {
    Result<SQLite::Database> database = open_with(folder.file(), steps);
    REQUIRE(database);
    database->exec("INSERT INTO shelf (a, b) VALUES ('x', 'y')");
  }
  CHECK(version_in(folder.file()) == static_cast<long>(present) + 2);
  CHECK(version_in(copy_of(folder.file())) == static_cast<long>(present));
  const Ledger copy = Ledger::open(copy_of(folder.file()), Mode::read, ticking_clock()).value();
  CHECK(copy.entries(1).value().size() == 1);
}

TEST_CASE("a step that fails leaves the older ledger as it was") {
  const TempFolder folder;
  make_ledger(folder.file());
  const auto failed = open_with(folder.file(), steps_and({"CREATE TABLE shelf (a TEXT) STRICT",
                                                          "CREATE TABLE shelf (again TEXT)"}));
  REQUIRE_FALSE(failed);
  CHECK(to_string(failed.error()) ==
        folder.file().string() + ": the ledger gave trouble: table shelf already exists");
  CHECK(version_in(folder.file()) == static_cast<long>(present));
  CHECK_FALSE(SQLite::Database(folder.file()).tableExists("shelf"));
  const Ledger ledger = Ledger::open(folder.file(), Mode::read, ticking_clock()).value();
  CHECK(ledger.entries(1).value().size() == 1);
}

TEST_CASE("an older ledger opened for reading is told so and left alone") {
  const TempFolder folder;
  make_ledger(folder.file());
  const auto refused =
      open_with(folder.file(), steps_and({"CREATE TABLE shelf (a TEXT)"}), Mode::read);
  REQUIRE_FALSE(refused);
  CHECK(to_string(refused.error()) == folder.file().string() + ": the ledger is of version " +
                                          std::to_string(present) + " (expected " +
                                          std::to_string(present + 1) +
                                          ": any command that writes brings it up)");
  CHECK(version_in(folder.file()) == static_cast<long>(present));
}

TEST_CASE("a locked ledger is not brought up") {
  const TempFolder folder;
  make_ledger(folder.file());
  SQLite::Database other(folder.file(), SQLite::OPEN_READWRITE);
  other.exec("BEGIN IMMEDIATE");
  const auto refused = open_with(folder.file(), steps_and({"CREATE TABLE shelf (a TEXT)"}));
  REQUIRE_FALSE(refused);
  CHECK(refused.error().front().text ==
        "the ledger is locked by another program, nothing was written (expected it to be free: "
        "try again)");
  other.exec("ROLLBACK");
  CHECK(version_in(folder.file()) == static_cast<long>(present));
}

}  // namespace
}  // namespace soot::ledger::test
