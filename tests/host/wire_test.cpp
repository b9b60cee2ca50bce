// What the child says is heard whole, whatever else a plugin writes on the line.
#include "core/host/wire.hpp"

#include <doctest/doctest.h>

namespace soot::host {

TEST_CASE("words come back as they were said in any pieces") {
  soot::Problem problem = soot::make_problem(soot::Kind::data, "two\nlines");
  problem.place = {"a/b.toml", 12, 3};
  problem.excerpt = "x = 1\n    ^";
  problem.severity = soot::Severity::note;
  const std::string all =
      encode({Word::step, "init", "", {}}) + encode({Word::named, "winch", "1.0.0", {}}) +
      encode({Word::problem, "", "", problem}) + encode({Word::done, "", "", {}});
  std::string bytes;
  std::vector<Word> words;
  for (const char c : all) {
    bytes += c;
    for (Word& word : decode(bytes))
      words.push_back(std::move(word));
  }
  CHECK(bytes == "");
  REQUIRE(words.size() == 4);
  CHECK(words[0].text == "init");
  CHECK(words[1].text == "winch");
  CHECK(words[1].version == "1.0.0");
  CHECK(soot::to_string(words[2].what) == soot::to_string(problem));
  CHECK(words[2].what.severity == soot::Severity::note);
  CHECK(words[2].what.kind == soot::Kind::data);
  CHECK(words[3].kind == Word::done);
}

TEST_CASE("what is no word is dropped") {
  std::string bytes =
      "hello\nproblem\x1f"
      "9\x1f"
      "0\n\nstep\ndone\x1f\x1f\nrest";
  const std::vector<Word> words = decode(bytes);
  REQUIRE(words.size() == 1);
  CHECK(words[0].kind == Word::done);
  CHECK(bytes == "rest");
}

}  // namespace soot::host
