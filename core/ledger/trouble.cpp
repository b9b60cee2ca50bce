#include "core/ledger/trouble.hpp"

#include <sqlite3.h>

namespace soot::ledger {

Problem trouble_at(const std::filesystem::path& file, std::string text) {
  Problem problem = make_problem(Kind::trouble, "{}", text);
  problem.place.file = file.string();
  return problem;
}

Problem trouble_of(const std::filesystem::path& file, int code, std::string_view words) {
  switch (code & 0xff) {
    case SQLITE_FULL:
      return trouble_at(file,
                        "the disk is full, nothing was written (expected room for the ledger)");
    case SQLITE_IOERR:
      // A quota or a size limit comes as this too: SQLite does not always keep the system's reason.
      return trouble_at(file,
                        "the disk is full or at fault, nothing was written (expected a sound disk "
                        "with room for the ledger)");
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
      return trouble_at(file,
                        "the ledger is locked by another program, nothing was written "
                        "(expected it to be free: try again)");
    case SQLITE_READONLY:
    case SQLITE_PERM:
      return trouble_at(file,
                        "the ledger is read-only (expected a file and a folder that may be "
                        "written)");
    case SQLITE_NOTADB:
      return trouble_at(file, "this is not a ledger (expected an SQLite database)");
    case SQLITE_CORRUPT:
      return trouble_at(file, "the ledger is damaged (expected a sound SQLite database)");
    case SQLITE_CANTOPEN:
      return trouble_at(file,
                        "the ledger cannot be opened (expected a file and a folder that may be "
                        "read and written)");
    default:
      return trouble_at(file, fmt::format("the ledger gave trouble: {}", words));
  }
}

Problem trouble_of(const std::filesystem::path& file, const SQLite::Exception& exception) {
  return trouble_of(file, exception.getErrorCode(), exception.what());
}

}  // namespace soot::ledger
