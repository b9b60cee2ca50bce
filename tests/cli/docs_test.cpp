// What the README shows is what happens.
#include "tests/cli/transcript.hpp"
#include "tests/places.hpp"

#include <doctest/doctest.h>

#include <sstream>

using namespace soot::test;
namespace fs = std::filesystem;

namespace {

// The text of the ```console blocks, with everything else left as empty lines.
std::string console_blocks(const std::string& text) {
  std::istringstream lines(text);
  std::string out;
  bool inside = false;
  for (std::string line; std::getline(lines, line);) {
    const bool fence = line.rfind("```", 0) == 0;
    if (fence) inside = !inside && line == "```console";
    out += (inside && !fence ? line : "") + "\n";
  }
  return out;
}

}  // namespace

TEST_CASE("the examples of the README run in order and print what it says") {
  const std::string readme = read_file(fs::path{source_dir()} / "README.md");
  const Bench bench;
  const std::vector<Exchange> exchanges = read_transcript(console_blocks(readme));
  REQUIRE(exchanges.size() >= 6);
  for (const Exchange& exchange : exchanges) {
    const Heard heard = bench.run(exchange.command);
    INFO("README.md:", exchange.line, ": $ ", exchange.command);
    INFO("heard:\n", joined(heard.lines));
    CHECK(heard.exit_code == 0);
    if (!exchange.expected.empty()) CHECK(matches(exchange.expected, heard.lines));
  }
}

TEST_CASE("every command that the README names in passing exists") {
  const std::string readme = read_file(fs::path{source_dir()} / "README.md");
  const Bench bench;
  std::size_t found = 0;
  for (std::size_t at = readme.find("`sootsayer "); at != std::string::npos;
       at = readme.find("`sootsayer ", at + 1)) {
    const std::size_t end = readme.find('`', at + 1);
    const std::string words = readme.substr(at + 1, end - at - 1);
    std::istringstream parts(words);
    std::string program, command;
    parts >> program >> command;
    INFO(words);
    CHECK(bench.run("sootsayer " + command + " --help").exit_code == 0);
    ++found;
  }
  CHECK(found >= 10);
}
