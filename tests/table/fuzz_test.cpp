// Seeded nonsense: a good document with bytes changed, dropped, doubled or swapped is taken or
// refused, never anything else; every complaint has a line that is there.
#include "core/table/reader.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <random>
#include <string>

namespace {

using soot::Dimension;
using soot::Document;
using soot::Reader;

const std::string good = R"(# a comment with a degree sign °
name = "Hagmoss four"
count = 4
factor = 1.5
open = true
order = [1, 2, 4, 3]
depth = "29.20 mm"

[lift]
law = "constant-rate"
rate = "0.12 mm/deg"

[[entry]]
id = "one"
grades = [ { id = "slight", share = 0.3 }, { id = "gross", share = 0.7 } ]
steps = ["first", { do = "second", cautions = ["hot"] }]

[[entry]]
id = 'two'
text = """
several
lines"""
when.it.was = 2031-04-02T09:10:00Z
)";

void walk(Reader& root) {
  (void)root.needed_text("name");
  (void)root.integer("count");
  (void)root.number("factor");
  (void)root.boolean("open");
  (void)root.integers("order");
  (void)root.measure("depth", Dimension::length);
  if (std::optional<Reader> lift = root.table("lift")) {
    (void)lift->text("law");
    (void)lift->measure("rate");
    lift->done();
  }
  for (Reader& entry : root.tables("entry")) {
    (void)entry.needed_text("id");
    for (Reader& grade : entry.tables("grades"))
      (void)grade.number("share");
    entry.each("steps", [](const auto&, std::optional<Reader> step) {
      if (step) (void)step->needed_text("do");
    });
    (void)entry.text("text");
    (void)entry.table("when");
    entry.done();
  }
  root.done();
}

using Random = std::mt19937;

std::size_t below(Random& random, std::size_t end) {
  return random() % end;
}

std::string mutated(Random& random) {
  static const std::string spice("=[]{}\"'\n.,#-+\\\t\0\xFF\xC2\x9B 0x", 23);
  std::string text = good;
  const std::size_t changes = 1 + below(random, 6);
  for (std::size_t i = 0; i < changes && !text.empty(); ++i) {
    const std::size_t at = below(random, text.size());
    const std::size_t length = std::min<std::size_t>(1 + below(random, 40), text.size() - at);
    switch (below(random, 6)) {
      case 0:
        text[at] = static_cast<char>(random());
        break;
      case 1:
        text[at] = spice[below(random, spice.size())];
        break;
      case 2:
        text.erase(at, length);
        break;
      case 3:
        text.insert(at, text.substr(below(random, text.size()), length));
        break;
      case 4:
        std::swap(text[at], text[below(random, text.size())]);
        break;
      default:
        text.resize(at);
    }
  }
  return text;
}

}  // namespace

TEST_CASE("the document that is spoilt here is good") {
  soot::Result<Document> document = Document::parse("a.toml", good);
  REQUIRE(document);
  Reader root = document->root();
  walk(root);
  CHECK(to_string(document->problems()) == "");
}

TEST_CASE("spoilt documents give a value or complaints with a line") {
  Random random(20310402);
  int taken = 0, refused = 0, complained = 0;
  for (int round = 0; round < 4000; ++round) {
    const std::string text = mutated(random);
    const auto lines = 1 + std::count(text.begin(), text.end(), '\n');
    soot::Result<Document> document = Document::parse("a.toml", text);
    soot::Problems problems;
    if (document) {
      Reader root = document->root();
      walk(root);
      problems = document->problems();
      ++(problems.empty() ? taken : complained);
    } else {
      problems = document.error();
      ++refused;
      CHECK(problems.size() == 1);
    }
    CAPTURE(text);
    for (const soot::Problem& problem : problems) {
      CHECK(problem.place.file == "a.toml");
      CHECK_FALSE(problem.text.empty());
      CHECK(std::none_of(problem.excerpt.begin(), problem.excerpt.end(),
                         [](char c) { return static_cast<unsigned char>(c) < 0x20 && c != '\n'; }));
      if (problem.text.find("more like these") != std::string::npos) continue;
      CHECK(problem.place.line >= 1);
      CHECK(problem.place.line <= lines);
    }
  }
  // All three ends are met, so that none of the above stands for nothing.
  CHECK(taken > 100);
  CHECK(refused > 100);
  CHECK(complained > 100);
}
