#include "tests/cli/transcript.hpp"

#include "tests/places.hpp"

#include <doctest/doctest.h>

#include <algorithm>

using namespace soot::test;
namespace fs = std::filesystem;

namespace {

void follow(const Bench& bench, const std::string& name, const std::vector<Exchange>& exchanges) {
  for (const Exchange& exchange : exchanges) {
    const Heard heard = bench.run(exchange.command);
    INFO(name, ":", exchange.line, ": $ ", exchange.command);
    INFO("expected:\n", joined(exchange.expected));
    INFO("heard:\n", joined(heard.lines));
    CHECK(heard.exit_code == exchange.exit_code);
    CHECK(matches(exchange.expected, heard.lines));
  }
}

}  // namespace

TEST_CASE("a pattern of lines matches only what it says") {
  CHECK(matches({"a", "...", "c"}, {"a", "b", "b", "c"}));
  CHECK(matches({"a", "...", "c"}, {"a", "c"}));
  CHECK_FALSE(matches({"a", "c"}, {"a", "b", "c"}));
  CHECK_FALSE(matches({"a"}, {"a", "b"}));
}

TEST_CASE("every conversation in the data folder goes as written") {
  std::vector<fs::path> files;
  for (const auto& entry : fs::directory_iterator(fs::path{source_dir()} / "tests/data/cli"))
    files.push_back(entry.path());
  std::sort(files.begin(), files.end());
  REQUIRE(files.size() >= 5);
  for (const fs::path& file : files) {
    const Bench bench;
    const std::vector<Exchange> exchanges = read_transcript(read_file(file));
    REQUIRE_FALSE(exchanges.empty());
    follow(bench, file.filename().string(), exchanges);
  }
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
