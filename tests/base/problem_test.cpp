#include "core/base/problem.hpp"

#include <doctest/doctest.h>

namespace {

soot::Result<int> refuses() {
  return soot::fail(soot::Kind::use, "cylinder {} of {} (expected 1 to {})", 7, 4, 4);
}

}  // namespace

TEST_CASE("a problem prints its place as far as it is known") {
  soot::Problem problem = soot::make_problem(soot::Kind::data, "unknown key '{}'", "strenght");
  CHECK(soot::to_string(problem) == "unknown key 'strenght'");
  problem.place.file = "causes.toml";
  CHECK(soot::to_string(problem) == "causes.toml: unknown key 'strenght'");
  problem.place.line = 14;
  CHECK(soot::to_string(problem) == "causes.toml:14: unknown key 'strenght'");
  problem.place.column = 9;
  problem.excerpt = "strenght = 0.5\n^";
  CHECK(soot::to_string(problem) == "causes.toml:14:9: unknown key 'strenght'\nstrenght = 0.5\n^");
}

TEST_CASE("problems print one below the other") {
  const soot::Problems problems{soot::make_problem(soot::Kind::use, "first"),
                                soot::make_problem(soot::Kind::use, "second")};
  CHECK(soot::to_string(problems) == "first\nsecond");
}

TEST_CASE("a note is no error") {
  soot::Problem note = soot::make_problem(soot::Kind::data, "a disagreement");
  note.severity = soot::Severity::note;
  CHECK_FALSE(soot::has_errors({note}));
  CHECK(soot::has_errors({note, soot::make_problem(soot::Kind::data, "an error")}));
  CHECK_FALSE(soot::has_errors({}));
}

TEST_CASE("a failed result hands its problems on") {
  const auto failed = refuses();
  REQUIRE_FALSE(failed);
  CHECK(failed.error().front().text == "cylinder 7 of 4 (expected 1 to 4)");
  CHECK(failed.error().front().kind == soot::Kind::use);
  const soot::Result<std::string> passed = soot::pass_on(failed);
  REQUIRE_FALSE(passed);
  CHECK(passed.error().size() == 1);
}
