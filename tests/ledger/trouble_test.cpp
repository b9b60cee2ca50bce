// What the surroundings do to a ledger: one clear sentence each, and nothing half written.
#include "core/ledger/trouble.hpp"

#include "core/ledger/ledger.hpp"
#include "tests/ledger/temp_folder.hpp"

#include <SQLiteCpp/Database.h>
#include <doctest/doctest.h>

#include <csignal>
#include <fstream>
#include <random>
#include <sqlite3.h>
#include <sys/resource.h>
#include <unistd.h>

namespace soot::ledger::test {
namespace {

namespace fs = std::filesystem;
using std::chrono::milliseconds;

const NewJob bare_job{"hagmoss-4", "1", "tabular", "1", ""};

Result<Ledger> try_open(const fs::path& file, Mode mode = Mode::write) {
  return Ledger::open(file, mode, ticking_clock(), milliseconds{20});
}

/// The sentence without the path before it, which must be the file's.
template <class T>
std::string trouble(const fs::path& file, const Result<T>& result) {
  REQUIRE_FALSE(result);
  REQUIRE(result.error().size() == 1);
  CHECK(result.error().front().kind == Kind::trouble);
  CHECK(result.error().front().place.file == file.string());
  return result.error().front().text;
}

void make_ledger(const fs::path& file, int notes) {
  Ledger ledger = try_open(file).value();
  CHECK(ledger.open_job(bare_job));
  for (int i = 0; i < notes; ++i)
    CHECK(ledger.append(1, Noted{std::string(300, 'n')}));
}

const std::string locked =
    "the ledger is locked by another program, nothing was written "
    "(expected it to be free: try again)";
const std::string read_only =
    "the ledger is read-only (expected a file and a folder that may be written)";
const std::string no_room =
    "the disk is full or at fault, nothing was written (expected a sound disk with room for the "
    "ledger)";

TEST_CASE("a ledger and its folders are made on first use with a write-ahead log") {
  const TempFolder folder;
  const fs::path file = folder.path() / "a" / "b" / "ledger.sqlite";
  const Ledger ledger = try_open(file).value();
  SQLite::Database other(file);
  CHECK(other.execAndGet("PRAGMA journal_mode").getString() == "wal");
}

TEST_CASE("a lock held by another connection is waited for and then told") {
  const TempFolder folder;
  make_ledger(folder.file(), 1);
  Ledger ledger = try_open(folder.file()).value();
  SQLite::Database other(folder.file(), SQLite::OPEN_READWRITE);
  other.exec("BEGIN IMMEDIATE");
  CHECK(trouble(folder.file(), ledger.append(1, Noted{"late"})) == locked);
  CHECK(trouble(folder.file(), ledger.open_job(bare_job)) == locked);
  CHECK(ledger.entries(1).value().size() == 1);  // reading goes on meanwhile
  other.exec("ROLLBACK");
  CHECK(ledger.append(1, Noted{"now"}).value() == 2);
}

TEST_CASE("a file locked as a whole cannot be opened") {
  const TempFolder folder;
  make_ledger(folder.file(), 1);
  SQLite::Database other(folder.file(), SQLite::OPEN_READWRITE);
  other.exec("PRAGMA journal_mode = DELETE");
  other.exec("BEGIN EXCLUSIVE");
  CHECK(trouble(folder.file(), try_open(folder.file())) == locked);
  CHECK(trouble(folder.file(), try_open(folder.file(), Mode::read)) == locked);
}

TEST_CASE("a ledger opened for reading reads and refuses to write") {
  const TempFolder folder;
  make_ledger(folder.file(), 1);
  Ledger ledger = try_open(folder.file(), Mode::read).value();
  CHECK(ledger.entries(1).value().size() == 1);
  CHECK(ledger.current().value() == 1);
  CHECK(trouble(folder.file(), ledger.append(1, Noted{"x"})) == read_only);
  CHECK(trouble(folder.file(), ledger.open_job(bare_job)) == read_only);
  CHECK(trouble(folder.file(), ledger.set_current(1)) == read_only);
}

/// While it lives, file permissions hold for this process even if it was started by root.
class OrdinaryUser {
 public:
  OrdinaryUser() : was_root_(geteuid() == 0), works_(!was_root_ || seteuid(65534) == 0) {}
  OrdinaryUser(const OrdinaryUser&) = delete;
  OrdinaryUser& operator=(const OrdinaryUser&) = delete;
  ~OrdinaryUser() {
    if (was_root_ && works_ && seteuid(0) != 0) std::abort();
  }
  bool works() const { return works_; }

 private:
  bool was_root_;
  bool works_;
};

TEST_CASE("a file that may not be written is read and not written") {
  const TempFolder folder;
  make_ledger(folder.file(), 1);
  fs::permissions(folder.file(), fs::perms{0444});
  fs::permissions(folder.path(), fs::perms{0555});
  {
    const OrdinaryUser user;
    if (!user.works()) {
      MESSAGE("skipped: root here cannot become an ordinary user");
    } else {
      CHECK(trouble(folder.file(), try_open(folder.file())) == read_only);
      const auto reading = try_open(folder.file(), Mode::read);
      REQUIRE_MESSAGE(reading, to_string(reading.error()));
      CHECK(reading->entries(1).value().size() == 1);
      CHECK(trouble(folder.path() / "new.sqlite", try_open(folder.path() / "new.sqlite")) ==
            "the ledger cannot be opened (expected a file and a folder that may be read and "
            "written)");
      CHECK(trouble(folder.path() / "sub", try_open(folder.path() / "sub" / "new.sqlite")) ==
            "the ledger's folder cannot be made: Permission denied");
    }
  }
  fs::permissions(folder.path(), fs::perms{0755});
}

/// While it lives, no file of this process grows beyond `bytes`: a disk that fills up.
class SmallDisk {
 public:
  explicit SmallDisk(rlim_t bytes) : before_handler_(std::signal(SIGXFSZ, SIG_IGN)) {
    getrlimit(RLIMIT_FSIZE, &before_);
    const rlimit small{bytes, before_.rlim_max};
    setrlimit(RLIMIT_FSIZE, &small);
  }
  SmallDisk(const SmallDisk&) = delete;
  SmallDisk& operator=(const SmallDisk&) = delete;
  ~SmallDisk() {
    setrlimit(RLIMIT_FSIZE, &before_);
    std::signal(SIGXFSZ, before_handler_);
  }

 private:
  void (*before_handler_)(int);
  rlimit before_{};
};

TEST_CASE("a disk that fills up while writing leaves the entry out as a whole") {
  const TempFolder folder;
  make_ledger(folder.file(), 1);
  Ledger ledger = try_open(folder.file()).value();
  CHECK(ledger.append(1, Noted{"before"}));
  {
    const SmallDisk disk(100'000);
    CHECK(trouble(folder.file(),
                  ledger.append(1, {Noted{"small"}, Noted{std::string(500'000, 'x')}})) == no_room);
  }
  CHECK(ledger.entries(1).value().size() == 2);
  CHECK(ledger.append(1, Noted{"after"}).value() == 3);
  SQLite::Database other(folder.file());
  CHECK(other.execAndGet("PRAGMA integrity_check").getString() == "ok");
}

TEST_CASE("a disk that is full from the start gets the same sentence") {
  const TempFolder folder;
  const SmallDisk disk(100);
  CHECK(trouble(folder.file(), try_open(folder.file())) == no_room);
}

TEST_CASE("codes of the database become sentences") {
  const auto text = [](int code) { return trouble_of("x", code, "its own words").text; };
  CHECK(text(SQLITE_FULL) ==
        "the disk is full, nothing was written (expected room for the ledger)");
  CHECK(text(SQLITE_IOERR_READ) == no_room);
  CHECK(text(SQLITE_BUSY_SNAPSHOT) == locked);
  CHECK(text(SQLITE_LOCKED) == locked);
  CHECK(text(SQLITE_READONLY_DIRECTORY) == read_only);
  CHECK(text(SQLITE_CORRUPT_INDEX) == "the ledger is damaged (expected a sound SQLite database)");
  CHECK(text(SQLITE_MISUSE) == "the ledger gave trouble: its own words");
}

TEST_CASE("what is not a ledger is refused and left as it is") {
  const TempFolder folder;
  const fs::path file = folder.file();
  CHECK(trouble(file, try_open(file, Mode::read)) ==
        "there is no ledger yet (expected one: opening a job makes it)");
  CHECK(trouble(folder.path(), try_open(folder.path())) ==
        "this is a folder (expected the ledger's file)");
  CHECK(trouble("", try_open("")) == "no ledger is named (expected the path of its file)");

  for (const std::string& text : {std::string{"dear diary\n"}, std::string(9000, 'x')}) {
    std::ofstream(file) << text;
    CHECK(trouble(file, try_open(file)) == "this is not a ledger (expected an SQLite database)");
    CHECK(fs::file_size(file) == text.size());
  }
  std::ofstream(file, std::ios::trunc).close();
  CHECK(trouble(file, try_open(file, Mode::read)) ==
        "the ledger is empty (expected one: opening a job fills it)");
  SQLite::Database(file, SQLite::OPEN_READWRITE).exec("CREATE TABLE tunes (name TEXT)");
  CHECK(trouble(file, try_open(file)) == "this database is another program's (expected a ledger)");
}

TEST_CASE("a ledger of a newer program is refused and left as it is") {
  const TempFolder folder;
  make_ledger(folder.file(), 1);
  SQLite::Database(folder.file(), SQLite::OPEN_READWRITE).exec("PRAGMA user_version = 9");
  const std::string sentence =
      "the ledger is of version 9, made by a newer program (expected at most version 1)";
  CHECK(trouble(folder.file(), try_open(folder.file())) == sentence);
  CHECK(trouble(folder.file(), try_open(folder.file(), Mode::read)) == sentence);
}

TEST_CASE("a line that no program of ours wrote is named") {
  const TempFolder folder;
  make_ledger(folder.file(), 2);
  SQLite::Database other(folder.file(), SQLite::OPEN_READWRITE);
  other.exec("DROP TRIGGER line_keeps; UPDATE line SET payload = '{}' WHERE number = 2");
  const Ledger ledger = try_open(folder.file()).value();
  CHECK(trouble(folder.file(), ledger.entries(1)) ==
        "line 2 of the ledger is damaged: '{}' is not what a noted line says");
  other.exec("UPDATE line SET kind = 'sung' WHERE number = 2");
  CHECK(trouble(folder.file(), ledger.entries(1)) ==
        "line 2 of the ledger is damaged: kind 'sung' is not known (expected told, saw, gauged, "
        "skipped, ranked, proposed, done, proved, closed, reopened, noted, struck)");
}

TEST_CASE("a file damaged at random gives values or trouble and never more") {
  const TempFolder folder;
  make_ledger(folder.file(), 20);
  std::string bytes(fs::file_size(folder.file()), '\0');
  std::ifstream(folder.file(), std::ios::binary)
      .read(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  std::mt19937 random{20310402};
  const fs::path file = folder.path() / "damaged.sqlite";
  int refusals = 0;
  for (int round = 0; round < 150; ++round) {
    std::string damaged = bytes;
    for (int i = 0; i < 40; ++i)
      damaged[random() % damaged.size()] = static_cast<char>(random());
    std::ofstream(file, std::ios::binary) << damaged;
    const auto ledger = try_open(file, Mode::read);
    const auto entries = ledger ? ledger->entries(1) : Result<std::vector<Entry>>{pass_on(ledger)};
    if (!entries) {
      ++refusals;
      CHECK_FALSE(entries.error().front().text.empty());
    }
  }
  CHECK(refusals > 0);
}

}  // namespace
}  // namespace soot::ledger::test
