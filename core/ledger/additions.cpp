#include "core/ledger/additions.hpp"

#include "core/ledger/payload.hpp"
#include "core/ledger/queries.hpp"

#include <SQLiteCpp/Statement.h>

namespace soot::ledger {
namespace {

bool is_taken_by_closed_job(const Payload& payload) {
  return std::holds_alternative<Noted>(payload) || std::holds_alternative<Reopened>(payload) ||
         std::holds_alternative<Struck>(payload);
}

Result<void> check_state(const Header& job, const Payload& payload) {
  if (job.is_open && std::holds_alternative<Reopened>(payload))
    return fail(Kind::use, "job {} is open (expected a closed one to reopen)", job.number);
  if (job.is_open || is_taken_by_closed_job(payload)) return {};
  if (std::holds_alternative<Closed>(payload))
    return fail(Kind::use, "job {} is closed already", job.number);
  return fail(Kind::use, "job {} is closed (expected `reopen` first)", job.number);
}

Result<void> check_strike(const SQLite::Database& database, long job, long line) {
  SQLite::Statement row(database,
                        "SELECT line.job, line.kind, strike.number "
                        "FROM line LEFT JOIN line AS strike ON strike.strikes = line.number "
                        "WHERE line.number = ?");
  row.bind(1, line);
  if (!row.executeStep())
    return fail(Kind::use, "there is no line {} (expected one of the record of job {})", line, job);
  const long owner = row.getColumn(0).getInt64();
  if (owner != job)
    return fail(Kind::use, "line {} belongs to job {} (expected one of the record of job {})", line,
                owner, job);
  if (row.getColumn(1).getString() == "struck")
    return fail(Kind::use, "line {} is itself a strike and stays (expected another line)", line);
  if (!row.getColumn(2).isNull())
    return fail(Kind::use, "line {} is struck already, by line {}", line,
                row.getColumn(2).getInt64());
  return {};
}

}  // namespace

Result<long> add_job(SQLite::Database& database, const std::string& at, const NewJob& job) {
  if (job.family.empty())
    return fail(Kind::use, "no family is named (expected the engine's family)");
  SQLite::Statement insert(database,
                           "INSERT INTO job (family, family_version, plugin, plugin_version, "
                           "engine, opened_at) VALUES (?, ?, ?, ?, ?, ?)");
  int column = 0;
  for (const std::string& text :
       {job.family, job.family_version, job.plugin, job.plugin_version, job.engine, at}) {
    if (!is_utf8(text))
      return fail(Kind::use, "the name of a job's engine is not UTF-8 (expected UTF-8)");
    insert.bind(++column, text);
  }
  insert.exec();
  return database.getLastInsertRowid();
}

Result<void> make_current(SQLite::Database& database, long job) {
  const Result<Header> header = find_job(database, job);
  if (!header) return pass_on(header);
  SQLite::Statement insert(database,
                           "INSERT INTO current_job (only_row, job) VALUES (1, ?) "
                           "ON CONFLICT (only_row) DO UPDATE SET job = excluded.job");
  insert.bind(1, job);
  insert.exec();
  return {};
}

Result<long> add_line(SQLite::Database& database, const std::string& at, long job,
                      const Payload& payload) {
  const Result<Header> header = find_job(database, job);
  if (!header) return pass_on(header);
  const Result<void> state = check_state(*header, payload);
  if (!state) return pass_on(state);
  const Result<std::string> text = write_payload(payload);
  if (!text) return pass_on(text);

  SQLite::Statement insert(
      database, "INSERT INTO line (job, at, kind, payload, strikes) VALUES (?, ?, ?, ?, ?)");
  insert.bind(1, job);
  insert.bind(2, at);
  insert.bind(3, std::string{kind_of(payload)});
  insert.bind(4, *text);
  if (const Struck* struck = std::get_if<Struck>(&payload)) {
    const Result<void> strike = check_strike(database, job, struck->line);
    if (!strike) return pass_on(strike);
    insert.bind(5, struck->line);
  }
  insert.exec();
  return database.getLastInsertRowid();
}

}  // namespace soot::ledger
