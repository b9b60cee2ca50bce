#include "core/ledger/ledger.hpp"

#include "core/ledger/additions.hpp"
#include "core/ledger/database.hpp"
#include "core/ledger/queries.hpp"
#include "core/ledger/schema.hpp"
#include "core/ledger/trouble.hpp"

#include <SQLiteCpp/Transaction.h>

#include <system_error>
#include <utility>

namespace soot::ledger {

struct Ledger::Body {
  std::filesystem::path file;
  SQLite::Database database;
  Clock clock;

  /// Runs `work`, which gives a Result; what the database throws becomes a sentence.
  template <class Work>
  auto guarded(Work work) -> decltype(work()) {
    try {
      return work();
    } catch (const SQLite::Exception& exception) {
      return tl::unexpected<Problems>(Problems{trouble_of(file, exception)});
    }
  }

  /// The same inside a write transaction, which is kept only if `work` succeeds. It is immediate,
  /// so that the wait for another program's lock comes before anything is done.
  template <class Work>
  auto written(Work work) -> decltype(work()) {
    return guarded([&] {
      SQLite::Transaction transaction(database, SQLite::TransactionBehavior::IMMEDIATE);
      auto result = work();
      if (result) transaction.commit();
      return result;
    });
  }
};

Ledger::Ledger(std::unique_ptr<Body> body) : body_(std::move(body)) {}
Ledger::Ledger(Ledger&&) noexcept = default;
Ledger& Ledger::operator=(Ledger&&) noexcept = default;
Ledger::~Ledger() = default;

Result<Ledger> Ledger::open(const std::filesystem::path& file, Mode mode, Clock clock,
                            std::chrono::milliseconds patience) {
  // Absolute, so that SQLite cannot take a name such as ":memory:" for one of its own.
  std::error_code error;
  const std::filesystem::path place = std::filesystem::absolute(file, error);
  if (file.empty() || error)
    return tl::unexpected<Problems>(
        Problems{trouble_at(file, "no ledger is named (expected the path of its file)")});
  Result<SQLite::Database> database = open_database(place, mode, patience, schema_steps);
  if (!database) return pass_on(database);
  return Ledger(std::make_unique<Body>(Body{place, std::move(*database), std::move(clock)}));
}

Result<long> Ledger::open_job(const NewJob& job) {
  return body_->written([&]() -> Result<long> {
    const Result<long> number = add_job(body_->database, body_->clock(), job);
    if (!number) return number;
    const Result<void> current = make_current(body_->database, *number);
    if (!current) return pass_on(current);
    return number;
  });
}

Result<std::optional<long>> Ledger::current() const {
  return body_->guarded(
      [&]() -> Result<std::optional<long>> { return find_current(body_->database); });
}

Result<void> Ledger::set_current(long job) {
  return body_->written([&] { return make_current(body_->database, job); });
}

Result<Header> Ledger::job(long number) const {
  return body_->guarded([&] { return find_job(body_->database, number); });
}

Result<std::vector<Summary>> Ledger::jobs(Which which) const {
  return body_->guarded(
      [&]() -> Result<std::vector<Summary>> { return list_jobs(body_->database, which); });
}

Result<std::vector<Entry>> Ledger::entries(long job) const {
  Result<std::vector<Entry>> entries =
      body_->guarded([&] { return list_entries(body_->database, job); });
  if (entries) return entries;
  // A damaged line knows its number, not the file it stands in.
  for (Problem& problem : entries.error())
    if (problem.kind == Kind::trouble) problem.place.file = body_->file.string();
  return entries;
}

Result<std::vector<long>> Ledger::append(long job, const std::vector<Payload>& payloads) {
  return body_->written([&]() -> Result<std::vector<long>> {
    const std::string at = body_->clock();
    std::vector<long> lines;
    for (const Payload& payload : payloads) {
      const Result<long> line = add_line(body_->database, at, job, payload);
      if (!line) return pass_on(line);
      lines.push_back(*line);
    }
    return lines;
  });
}

Result<long> Ledger::append(long job, const Payload& payload) {
  const Result<std::vector<long>> lines = append(job, std::vector<Payload>{payload});
  if (!lines) return pass_on(lines);
  return lines->front();
}

Result<long> Ledger::strike(long job, long line, const std::string& reason) {
  return append(job, Struck{line, reason});
}

}  // namespace soot::ledger
