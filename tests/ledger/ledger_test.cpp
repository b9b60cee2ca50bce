#include "core/ledger/ledger.hpp"

#include "core/ledger/payload.hpp"
#include "tests/ledger/temp_folder.hpp"

#include <doctest/doctest.h>

namespace soot::ledger::test {
namespace {

const NewJob hagmoss{"hagmoss-4", "3", "tabular", "1.2", "the one in the mill"};

Ledger opened(const TempFolder& folder) {
  Result<Ledger> ledger = Ledger::open(folder.file(), Mode::write, ticking_clock());
  REQUIRE_MESSAGE(ledger, to_string(ledger.error()));
  return std::move(*ledger);
}

Gauged gauged(std::string quantity, int cylinder, std::string_view typed) {
  Gauged payload;
  payload.quantity = std::move(quantity);
  payload.cylinder = cylinder;
  payload.value = read_measure(typed).value();
  return payload;
}

/// Kind and JSON text of every line, which is all that a payload is.
std::vector<std::string> texts_of(const std::vector<Entry>& entries) {
  std::vector<std::string> texts;
  for (const Entry& entry : entries)
    texts.push_back(std::string{kind_of(entry.payload)} + " " +
                    write_payload(entry.payload).value());
  return texts;
}

TEST_CASE("a job comes back as it was opened and is the current one") {
  const TempFolder folder;
  Ledger ledger = opened(folder);
  CHECK(ledger.current().value() == std::nullopt);
  CHECK(ledger.open_job(hagmoss).value() == 1);
  CHECK(ledger.open_job({"lodefoot-1", "1", "lodefoot", "0.9", ""}).value() == 2);
  CHECK(ledger.current().value() == 2);
  CHECK(ledger.set_current(1));
  CHECK(ledger.current().value() == 1);

  const Header header = ledger.job(1).value();
  CHECK(header.number == 1);
  CHECK(header.opened_with.family == "hagmoss-4");
  CHECK(header.opened_with.family_version == "3");
  CHECK(header.opened_with.plugin == "tabular");
  CHECK(header.opened_with.plugin_version == "1.2");
  CHECK(header.opened_with.engine == "the one in the mill");
  CHECK(header.opened_at == "2031-04-02T10:00:01Z");
  CHECK(header.is_open);
}

TEST_CASE("every kind of line comes back as it was written after reopening the file") {
  const TempFolder folder;
  Gauged full = gauged("lifter-depth", 3, " 29.41mm ");
  full.uncertainty = read_measure("0.02 mm").value();
  full.came_up = CameUp::doubtful;
  const std::vector<Payload> payloads{
      Told{"slow to start since Easter", "just-rebuilt"},
      Saw{"hard-start-cold", 0, true, false, true},
      Saw{"smoke-white", 2, false, true, false},
      full,
      gauged("firing-pressure", 1, "<5 bar"),
      Skipped{"spill-timing", "no spill pipe"},
      Ranked{{{"lifter-one", 3, 0.875}, {"timing-off", 0, 0.0625}}},
      Proposed{"look", {{"check", "lifter-depth", {1, 2, 3, 4}, 25}}},
      Done{"lifter-set", {3}, "raised 1.2 flats, \"jam rise\" 0.04", "none", 40.5},
      Proved{Proof::not_tested, ""},
      Noted{"Öl gewechselt\nund geprüft"},
      Closed{{{"lifter-one", 3, "late-gross"}}, "left open: compression of no. 3"},
      Reopened{"back after a month"},
  };
  {
    Ledger ledger = opened(folder);
    CHECK(ledger.open_job(hagmoss));
    const std::vector<long> lines = ledger.append(1, payloads).value();
    CHECK(lines.size() == payloads.size());
    CHECK(lines.front() == 1);
    CHECK(lines.back() == static_cast<long>(payloads.size()));
  }
  const Ledger ledger = Ledger::open(folder.file(), Mode::read, ticking_clock()).value();
  const std::vector<Entry> entries = ledger.entries(1).value();
  REQUIRE(entries.size() == payloads.size());
  for (std::size_t i = 0; i < entries.size(); ++i) {
    CAPTURE(i);
    CHECK(entries[i].payload.index() == payloads[i].index());
    CHECK(entries[i].line == static_cast<long>(i) + 1);
    CHECK(entries[i].at == "2031-04-02T10:00:02Z");
    CHECK_FALSE(entries[i].crossed_out);
  }
  const Told& told = std::get<Told>(entries[0].payload);
  CHECK(told.words == "slow to start since Easter");
  CHECK(told.history == "just-rebuilt");
  const Gauged& depth = std::get<Gauged>(entries[3].payload);
  CHECK(depth.value.as_written == "29.41mm");
  CHECK(depth.value.model() == doctest::Approx(29.41));
  CHECK(depth.uncertainty->as_written == "0.02 mm");
  CHECK(depth.came_up == CameUp::doubtful);
  CHECK(std::get<Gauged>(entries[4].payload).value.bound == Bound::below);
  CHECK(std::get<Noted>(entries[10].payload).words == "Öl gewechselt\nund geprüft");
  CHECK(
      texts_of(entries)[1] ==
      R"(saw {"complaint":true,"cylinder":0,"present":true,"symptom":"hard-start-cold","unsure":false})");
  CHECK(
      texts_of(entries)[7] ==
      R"(proposed {"moves":[{"cylinders":[1,2,3,4],"id":"lifter-depth","kind":"check","minutes":25.0}],"verdict":"look"})");
  CHECK(
      texts_of(entries)[8] ==
      R"(done {"correction":"lifter-set","cylinders":[3],"minutes":40.5,"note":"raised 1.2 flats, \"jam rise\" 0.04","parts":"none"})");
  CHECK(texts_of(entries)[9] == R"(proved {"note":"","result":"not-tested"})");
  CHECK(
      texts_of(entries)[11] ==
      R"(closed {"causes":[{"cause":"lifter-one","cylinder":3,"grade":"late-gross"}],"note":"left open: compression of no. 3"})");
}

TEST_CASE("line numbers rise through the whole ledger and two users see each other") {
  const TempFolder folder;
  Ledger one = opened(folder);
  Ledger two = opened(folder);
  CHECK(one.open_job(hagmoss).value() == 1);
  CHECK(two.open_job(hagmoss).value() == 2);
  CHECK(one.append(1, Noted{"a"}).value() == 1);
  CHECK(two.append(2, Noted{"b"}).value() == 2);
  CHECK(two.append(1, Noted{"c"}).value() == 3);
  CHECK(texts_of(one.entries(1).value()) ==
        std::vector<std::string>{R"(noted {"words":"a"})", R"(noted {"words":"c"})"});
}

TEST_CASE("jobs are listed with their last words and lines by state") {
  const TempFolder folder;
  Ledger ledger = opened(folder);
  for (int i = 0; i < 3; ++i)
    CHECK(ledger.open_job(hagmoss));
  CHECK(ledger.append(1, {Told{"smokes", {}}, Told{"smokes white", {}}, Told{"", "ordinary"}}));
  CHECK(ledger.append(2, Closed{}));
  const std::vector<Summary> all = ledger.jobs(Which::all).value();
  REQUIRE(all.size() == 3);
  CHECK(all[0].words == "smokes white");
  CHECK(all[0].lines == 3);
  CHECK(all[0].last_at == "2031-04-02T10:00:04Z");
  CHECK(all[2].words == "");
  CHECK(all[2].lines == 0);
  CHECK(all[2].last_at == all[2].header.opened_at);
  REQUIRE(ledger.jobs(Which::closed).value().size() == 1);
  CHECK(ledger.jobs(Which::closed).value()[0].header.number == 2);
  CHECK(ledger.jobs(Which::open).value().size() == 2);

  CHECK(ledger.strike(1, 2, "not said so"));
  CHECK(ledger.jobs(Which::open).value()[0].words == "smokes");
}

TEST_CASE("several readings are written all or none") {
  const TempFolder folder;
  Ledger ledger = opened(folder);
  CHECK(ledger.open_job(hagmoss));
  Gauged altered = gauged("lifter-depth", 3, "29.41 mm");
  altered.value.as_written = "29.41 in";
  const auto refused = ledger.append(
      1, {gauged("lifter-depth", 1, "29.22 mm"), gauged("lifter-depth", 2, "29.19 mm"), altered});
  REQUIRE_FALSE(refused);
  CHECK(refused.error().front().kind == Kind::use);
  CHECK(to_string(refused.error()) ==
        "'29.41 in' is not what the value was read from (expected the text as typed)");
  CHECK(ledger.entries(1).value().empty());

  // Refused by a rule, after two lines of the same entry were already in the transaction.
  const auto ruled = ledger.append(1, {Noted{"a"}, Closed{}, Noted{"b"}, Saw{"knock"}});
  REQUIRE_FALSE(ruled);
  CHECK(to_string(ruled.error()) == "job 1 is closed (expected `reopen` first)");
  CHECK(ledger.entries(1).value().empty());
  CHECK(ledger.job(1).value().is_open);
  CHECK(ledger.append(1, Noted{"after"}).value() == 1);
}

TEST_CASE("a payload that says nothing is refused") {
  const TempFolder folder;
  Ledger ledger = opened(folder);
  CHECK(ledger.open_job(hagmoss));
  const auto sentence = [&](const Payload& payload) {
    const auto refused = ledger.append(1, payload);
    REQUIRE_FALSE(refused);
    CHECK(refused.error().front().kind == Kind::use);
    return to_string(refused.error());
  };
  CHECK(sentence(Told{}) == "nothing is told (expected the complaint in words, or the history)");
  CHECK(sentence(Saw{}) == "no symptom is named (expected its id)");
  CHECK(sentence(Gauged{}) == "no quantity is named (expected its id)");
  CHECK(sentence(Skipped{}) == "no check is named (expected its id)");
  CHECK(sentence(Done{}) == "no correction is named (expected its id)");
  CHECK(sentence(Noted{}) == "nothing is noted (expected some words)");
  CHECK(sentence(Ranked{{{"knock", 0, std::nan("")}}}) ==
        "a probability is not a number (expected 0 to 1)");
  CHECK(sentence(Noted{"caf\xe9"}) == "the text of a line is not UTF-8 (expected UTF-8)");
  CHECK(ledger.entries(1).value().empty());

  CHECK(to_string(ledger.open_job({}).error()) ==
        "no family is named (expected the engine's family)");
  CHECK(to_string(ledger.open_job({"hagmoss-4", "", "", "", "caf\xe9"}).error()) ==
        "the name of a job's engine is not UTF-8 (expected UTF-8)");
  CHECK(ledger.jobs(Which::all).value().size() == 1);
}

TEST_CASE("an unknown job is refused everywhere") {
  const TempFolder folder;
  Ledger ledger = opened(folder);
  const std::string sentence = "there is no job 7 in the ledger (expected one that `jobs` lists)";
  CHECK(to_string(ledger.job(7).error()) == sentence);
  CHECK(to_string(ledger.entries(7).error()) == sentence);
  CHECK(to_string(ledger.set_current(7).error()) == sentence);
  CHECK(to_string(ledger.append(7, Noted{"x"}).error()) == sentence);
  CHECK(ledger.current().value() == std::nullopt);
}

TEST_CASE("the clock of the system gives ISO 8601 in UTC") {
  const std::string now = system_clock_utc();
  REQUIRE(now.size() == 20);
  for (std::size_t i = 0; i < now.size(); ++i) {
    CAPTURE(now);
    const char form = "0000-00-00T00:00:00Z"[i];
    CHECK((form == '0' ? now[i] >= '0' && now[i] <= '9' : now[i] == form));
  }
  CHECK(now > "2020-01-01T00:00:00Z");
}

}  // namespace
}  // namespace soot::ledger::test
