#include "core/cli/options.hpp"

#include <doctest/doctest.h>

using namespace soot::cli;

namespace {

template <class R>
R request_of(const std::vector<std::string>& words) {
  const Parsed parsed = parse(words);
  REQUIRE(parsed.request.has_value());
  REQUIRE(std::holds_alternative<R>(*parsed.request));
  return std::get<R>(*parsed.request);
}

}  // namespace

TEST_CASE("a symptom with cylinders and flags") {
  const Saw saw = request_of<Saw>({"saw", "warms-late-found", "1", "4", "--absent", "--job", "7"});
  CHECK(saw.symptom == "warms-late-found");
  CHECK(saw.cylinders == std::vector<int>{1, 4});
  CHECK(saw.absent);
  CHECK(saw.job == 7);
}

TEST_CASE("readings below nought are readings and no options") {
  const Gauge gauge = request_of<Gauge>({"gauge", "air-temperature", "-5C"});
  CHECK(gauge.readings == std::vector<std::string>{"-5C"});
  CHECK(gauge.came_up == "yes");
}

TEST_CASE("a question of a file or of a job not of both") {
  CHECK(request_of<Rank>({"rank", "--file", "x.toml", "--format", "json"}).about.as_json);
  const Parsed both = parse({"rank", "--file", "x.toml", "--job", "2"});
  CHECK_FALSE(both.request.has_value());
  CHECK(both.exit_code == 2);
  CHECK(both.is_complaint);
}

TEST_CASE("a misspelt command is named with the nearest one") {
  CHECK(parse({"rnak"}).text ==
        "sootsayer: 'rnak' is no command of sootsayer, did you mean rank?\n");
  CHECK(parse({"case", "lst"}).text ==
        "sootsayer: 'lst' is no command of sootsayer case, did you mean list?\n");
  CHECK(parse({"frobnicate"}).text ==
        "sootsayer: 'frobnicate' is no command of sootsayer (see: sootsayer --help)\n");
  CHECK(parse({"frobnicate"}).exit_code == 2);
}

TEST_CASE("help and version are answers") {
  const Parsed version = parse({"--version"});
  CHECK(version.exit_code == 0);
  CHECK_FALSE(version.is_complaint);
  CHECK(version.text.rfind("sootsayer ", 0) == 0);
  for (const char* command :
       {"open", "tell", "saw", "gauge", "rank", "weigh", "next", "steps", "sum", "done", "prove",
        "close", "reopen", "page", "jobs", "strike"}) {
    const Parsed help = parse({command, "--help"});
    INFO(command);
    CHECK(help.exit_code == 0);
    CHECK(help.text.find("Examples:") != std::string::npos);
    CHECK(help.text.find(std::string{"Usage: sootsayer "} + command) != std::string::npos);
  }
}
