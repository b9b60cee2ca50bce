#include "tests/cli/transcript.hpp"

#include "tests/places.hpp"

#include <doctest/doctest.h>

#include <set>

using namespace soot::test;
namespace fs = std::filesystem;

namespace {

fs::path data_folder() {
  return fs::path{source_dir()} / "tests/data/cli";
}

void follow(const std::string& name) {
  const Bench bench;
  const std::vector<Exchange> exchanges =
      read_transcript(read_file(data_folder() / (name + ".txt")));
  REQUIRE_FALSE(exchanges.empty());
  for (const Exchange& exchange : exchanges) {
    const Heard heard = bench.run(exchange.command);
    INFO(name, ".txt:", exchange.line, ": $ ", exchange.command);
    INFO("expected:\n", joined(exchange.expected));
    INFO("heard:\n", joined(heard.lines));
    CHECK(heard.exit_code == exchange.exit_code);
    CHECK(matches(exchange.expected, heard.lines));
  }
}

std::set<std::string>& followed() {
  static std::set<std::string> names;
  return names;
}

// Each file is a test of its own, so that they run side by side.
#define CONVERSATION(id, name)                                           \
  [[maybe_unused]] const bool has_##id = followed().insert(name).second; \
  TEST_CASE("the conversation " name " goes as written") {               \
    follow(name);                                                        \
  }

CONVERSATION(bad_files, "bad-files")
CONVERSATION(json_and_lists, "json-and-lists")
CONVERSATION(kept_knowledge, "kept-knowledge")
CONVERSATION(knowledge, "knowledge")
CONVERSATION(one_job, "one-job")
CONVERSATION(plugins, "plugins")
CONVERSATION(steps_and_sums, "steps-and-sums")
CONVERSATION(sums_and_sheets, "sums-and-sheets")
CONVERSATION(trade_facts, "trade-facts")
CONVERSATION(wrong_use, "wrong-use")

}  // namespace

TEST_CASE("every conversation in the data folder has its test") {
  for (const auto& entry : fs::directory_iterator(data_folder()))
    CHECK_MESSAGE(followed().contains(entry.path().stem().string()),
                  entry.path().filename().string(), " has no CONVERSATION here");
}

TEST_CASE("a pattern of lines matches only what it says") {
  CHECK(matches({"a", "...", "c"}, {"a", "b", "b", "c"}));
  CHECK(matches({"a", "...", "c"}, {"a", "c"}));
  CHECK_FALSE(matches({"a", "c"}, {"a", "b", "c"}));
  CHECK_FALSE(matches({"a"}, {"a", "b"}));
}

TEST_CASE("no answer is wider than eighty characters") {
  const Bench bench;
  bench.run(
      "sootsayer open hagmoss-4 && sootsayer saw hard-start-cold --complaint && "
      "sootsayer tell 'slow to start' --history just-rebuilt && "
      "sootsayer gauge lifter-depth 1=29.22mm 2=29.19mm 3=29.41mm 4=29.21mm");
  for (const char* command : {"sootsayer rank",
                              "sootsayer next",
                              "sootsayer weigh lifter-one 3",
                              "sootsayer sum",
                              "sootsayer sum lifter",
                              "sootsayer sum order",
                              "sootsayer steps lifter-depth",
                              "sootsayer steps set-lifter",
                              "sootsayer page",
                              "sootsayer jobs",
                              "sootsayer case list",
                              "sootsayer case run tooth-out",
                              "sootsayer family show hagmoss-4",
                              "sootsayer knowledge list symptom",
                              "sootsayer knowledge list quantity",
                              "sootsayer knowledge list source",
                              "sootsayer knowledge show lifter-one",
                              "sootsayer knowledge show smoke-black-load",
                              "sootsayer knowledge show lifter-depth",
                              "sootsayer knowledge show set-lifter",
                              "sootsayer knowledge find black smoke",
                              "sootsayer knowledge check --all",
                              "sootsayer knowledge find --help",
                              "sootsayer --help",
                              "sootsayer open --help",
                              "sootsayer gauge --help",
                              "sootsayer rank --help",
                              "sootsayer sum --help",
                              "sootsayer jobs --help"}) {
    const Heard heard = bench.run(command);
    INFO(command);
    CHECK(heard.exit_code == 0);
    CHECK(heard.lines.size() > 1);
    for (const std::string& line : heard.lines) {
      INFO(line);
      CHECK(line.size() <= 80);
    }
  }
}
