#include "core/report/cases.hpp"

#include "core/model/words.hpp"

#include <doctest/doctest.h>

#include <sstream>
#include <string>

namespace soot {
namespace {

CaseReport report() {
  CaseReport out;
  out.title = "A title";
  out.story = "A story.";
  out.route = "A route.";
  out.rank.family = "hagmoss-4";
  return out;
}

}  // namespace

TEST_CASE("a long address is broken behind its slashes and fits the page") {
  CaseReport told = report();
  told.source =
      "https://someplace.example.org/2031/04/a-very-long-name-of-a-page-that-goes-on/and-on.html";
  const std::string text = to_text(told, Look{});
  CHECK(text.find("Retold from:\n  https://") != std::string::npos);
  std::istringstream lines(text);
  std::string joined;
  for (std::string line; std::getline(lines, line);) {
    CHECK(line.size() <= 80);
    if (line.starts_with("  ")) line.erase(0, 2);
    joined += line;
  }
  CHECK(joined.find(told.source) != std::string::npos);
}

TEST_CASE("a short address stays on the line of its head") {
  CaseReport told = report();
  told.source = "https://someplace.example.org/page";
  CHECK(to_text(told, Look{}).find("Retold from: https://someplace.example.org/page\n") !=
        std::string::npos);
}

TEST_CASE("a truth that no entry stands for says what is left to such a cause") {
  CaseReport told = report();
  TruthLine truth;
  truth.cause = not_listed_cause;
  truth.probability = 0.62;
  told.truth.push_back(truth);
  CHECK(to_text(told, Look{})
            .find("  not-listed: nothing in the list; 62 % is left to such a cause\n") !=
        std::string::npos);
}

}  // namespace soot
