#include "core/ledger/queries.hpp"

#include "core/ledger/payload.hpp"

#include <SQLiteCpp/Statement.h>

#include <string>

namespace soot::ledger {
namespace {

constexpr const char* header_columns =
    "SELECT number, family, family_version, plugin, plugin_version, engine, opened_at, is_open";

Header header_at(const SQLite::Statement& row) {
  Header header;
  header.number = row.getColumn(0).getInt64();
  header.opened_with.family = row.getColumn(1).getString();
  header.opened_with.family_version = row.getColumn(2).getString();
  header.opened_with.plugin = row.getColumn(3).getString();
  header.opened_with.plugin_version = row.getColumn(4).getString();
  header.opened_with.engine = row.getColumn(5).getString();
  header.opened_at = row.getColumn(6).getString();
  header.is_open = row.getColumn(7).getInt64() != 0;
  return header;
}

tl::unexpected<Problems> damaged(long line, const Problems& why) {
  return fail(Kind::trouble, "line {} of the ledger is damaged: {}", line, why.front().text);
}

Result<Entry> entry_at(const SQLite::Statement& row) {
  Entry entry;
  entry.line = row.getColumn(0).getInt64();
  entry.at = row.getColumn(1).getString();
  Result<Payload> payload =
      read_payload(row.getColumn(2).getString(), row.getColumn(3).getString());
  if (!payload) return damaged(entry.line, payload.error());
  entry.payload = *payload;
  if (Struck* struck = std::get_if<Struck>(&entry.payload))
    struck->line = row.getColumn(4).getInt64();
  if (row.getColumn(5).isNull()) return entry;

  const long by = row.getColumn(5).getInt64();
  const Result<Payload> strike = read_payload("struck", row.getColumn(7).getString());
  if (!strike) return damaged(by, strike.error());
  entry.crossed_out =
      CrossedOut{by, row.getColumn(6).getString(), std::get<Struck>(*strike).reason};
  return entry;
}

/// The last words told that stand; a damaged line is passed over here, `entries` complains of it.
std::string words_of(const SQLite::Database& database, long job) {
  SQLite::Statement told(database,
                         "SELECT payload FROM standing WHERE job = ? AND kind = 'told' "
                         "ORDER BY number DESC");
  told.bind(1, job);
  while (told.executeStep()) {
    const Result<Payload> payload = read_payload("told", told.getColumn(0).getString());
    if (payload && !std::get<Told>(*payload).words.empty()) return std::get<Told>(*payload).words;
  }
  return "";
}

bool is_wanted(const Header& header, Which which) {
  return which == Which::all || header.is_open == (which == Which::open);
}

}  // namespace

Result<Header> find_job(const SQLite::Database& database, long number) {
  SQLite::Statement row(database, std::string{header_columns} + " FROM job_state WHERE number = ?");
  row.bind(1, number);
  if (row.executeStep()) return header_at(row);
  return fail(Kind::use, "there is no job {} in the ledger (expected one that `jobs` lists)",
              number);
}

std::vector<Summary> list_jobs(const SQLite::Database& database, Which which) {
  SQLite::Statement row(database,
                        std::string{header_columns} +
                            ", (SELECT count(*) FROM line WHERE line.job = job_state.number)"
                            ", coalesce((SELECT at FROM line WHERE line.job = job_state.number"
                            "            ORDER BY line.number DESC LIMIT 1), opened_at)"
                            " FROM job_state ORDER BY number");
  std::vector<Summary> jobs;
  while (row.executeStep()) {
    Summary summary;
    summary.header = header_at(row);
    if (!is_wanted(summary.header, which)) continue;
    summary.lines = row.getColumn(8).getInt64();
    summary.last_at = row.getColumn(9).getString();
    summary.words = words_of(database, summary.header.number);
    jobs.push_back(summary);
  }
  return jobs;
}

std::optional<long> find_current(const SQLite::Database& database) {
  SQLite::Statement row(database, "SELECT job FROM current_job");
  if (!row.executeStep()) return std::nullopt;
  return row.getColumn(0).getInt64();
}

Result<std::vector<Entry>> list_entries(const SQLite::Database& database, long job) {
  const Result<Header> header = find_job(database, job);
  if (!header) return pass_on(header);
  SQLite::Statement row(database,
                        "SELECT line.number, line.at, line.kind, line.payload, line.strikes, "
                        "       strike.number, strike.at, strike.payload "
                        "FROM line LEFT JOIN line AS strike ON strike.strikes = line.number "
                        "WHERE line.job = ? ORDER BY line.number");
  row.bind(1, job);
  std::vector<Entry> entries;
  while (row.executeStep()) {
    const Result<Entry> entry = entry_at(row);
    if (!entry) return pass_on(entry);
    entries.push_back(*entry);
  }
  return entries;
}

}  // namespace soot::ledger
