// A mistaken line is crossed out and stays; nothing else undoes anything.
#include "core/ledger/ledger.hpp"
#include "tests/ledger/temp_folder.hpp"

#include <SQLiteCpp/Database.h>
#include <doctest/doctest.h>

namespace soot::ledger::test {
namespace {

struct Desk {
  TempFolder folder;
  Ledger ledger = Ledger::open(folder.file(), Mode::write, ticking_clock()).value();

  Desk() {
    CHECK(ledger.open_job({"hagmoss-4", "1", "tabular", "1", ""}));
    CHECK(ledger.open_job({"hagmoss-4", "1", "tabular", "1", ""}));
  }
  std::string refused(long job, long line, const std::string& reason = "mistake") {
    const std::size_t before = ledger.entries(job).value().size();
    const auto answer = ledger.strike(job, line, reason);
    REQUIRE_FALSE(answer);
    CHECK(answer.error().front().kind == Kind::use);
    CHECK(ledger.entries(job).value().size() == before);
    return to_string(answer.error());
  }
};

TEST_CASE("a struck line stays readable with the reason") {
  Desk desk;
  CHECK(desk.ledger.append(1, {Saw{"knock"}, Saw{"smoke-white"}}));
  CHECK(desk.ledger.strike(1, 1, "was the neighbour's engine").value() == 3);
  const std::vector<Entry> entries = desk.ledger.entries(1).value();
  REQUIRE(entries.size() == 3);
  CHECK(std::get<Saw>(entries[0].payload).symptom == "knock");
  REQUIRE(entries[0].crossed_out);
  CHECK(entries[0].crossed_out->by == 3);
  CHECK(entries[0].crossed_out->at == "2031-04-02T10:00:04Z");
  CHECK(entries[0].crossed_out->reason == "was the neighbour's engine");
  CHECK_FALSE(entries[1].crossed_out);
  const Struck& strike = std::get<Struck>(entries[2].payload);
  CHECK(strike.line == 1);
  CHECK(strike.reason == "was the neighbour's engine");
}

TEST_CASE("a strike needs a line of this job that stands and a reason") {
  Desk desk;
  CHECK(desk.ledger.append(1, {Saw{"knock"}, Saw{"smoke-white"}}));
  CHECK(desk.ledger.strike(1, 1, "mistake"));
  CHECK(desk.refused(1, 1) == "line 1 is struck already, by line 3");
  CHECK(desk.refused(1, 3) == "line 3 is itself a strike and stays (expected another line)");
  CHECK(desk.refused(1, 9) == "there is no line 9 (expected one of the record of job 1)");
  CHECK(desk.refused(2, 2) == "line 2 belongs to job 1 (expected one of the record of job 2)");
  CHECK(desk.refused(1, 2, "") == "no reason is given (expected why the line is mistaken)");
}

TEST_CASE("a closed job takes notes and strikes and opens by reopening or by striking the close") {
  Desk desk;
  const auto is_open = [&] { return desk.ledger.job(1).value().is_open; };
  const auto sentence = [&](const Payload& payload) {
    return to_string(desk.ledger.append(1, payload).error());
  };
  CHECK(sentence(Reopened{}) == "job 1 is open (expected a closed one to reopen)");
  CHECK(desk.ledger.append(1, Closed{}).value() == 1);
  CHECK_FALSE(is_open());
  CHECK(sentence(Closed{}) == "job 1 is closed already");
  CHECK(sentence(Saw{"knock"}) == "job 1 is closed (expected `reopen` first)");
  CHECK(sentence(Proved{}) == "job 1 is closed (expected `reopen` first)");
  CHECK(desk.ledger.append(1, Noted{"20 h on, still well"}).value() == 2);
  CHECK(desk.ledger.append(1, Reopened{"smokes again"}).value() == 3);
  CHECK(is_open());
  CHECK(desk.ledger.strike(1, 3, "was job 2"));
  CHECK_FALSE(is_open());
  CHECK(desk.ledger.strike(1, 1, "closed too early"));
  CHECK(is_open());
}

TEST_CASE("the file itself refuses to lose or change a line") {
  Desk desk;
  CHECK(desk.ledger.append(1, Saw{"knock"}));
  SQLite::Database other(desk.folder.file(), SQLite::OPEN_READWRITE);
  CHECK_THROWS_WITH(other.exec("DELETE FROM line"), "a line of the record is never deleted");
  CHECK_THROWS_WITH(other.exec("UPDATE line SET at = ''"),
                    "a line of the record is never overwritten");
  CHECK(desk.ledger.entries(1).value().size() == 1);
}

}  // namespace
}  // namespace soot::ledger::test
