// Pages of the knowledge: every id has one, no wider than the screen, with what its kind must say.
#include "core/guide/pages.hpp"

#include "core/base/text.hpp"
#include "core/guide/page_makers.hpp"
#include "tests/workbench/real_bench.hpp"

#include <algorithm>

using soot::EntryPage;
using soot::Look;
using soot::pages_of;
using soot::test::real_bench;

namespace {

std::vector<std::string> titles_of(const EntryPage& page) {
  std::vector<std::string> out;
  for (const EntryPage::Section& section : page.sections)
    out.push_back(section.title);
  return out;
}

template <class Entry>
void show_each(const soot::Entries<Entry>& list) {
  for (const Entry& entry : list) {
    const auto pages = pages_of(real_bench(), entry.id);
    REQUIRE_MESSAGE(pages, entry.id);
    for (const std::string& line : soot::split(to_text(*pages, Look{}), '\n')) {
      CAPTURE(line);
      CHECK(soot::width_of(line) <= 80);
    }
  }
}

}  // namespace

TEST_CASE("signs and work have pages no wider than the screen") {
  const soot::Knowledge& knowledge = real_bench().knowledge();
  show_each(knowledge.symptoms);
  show_each(knowledge.quantities);
  show_each(knowledge.checks);
  show_each(knowledge.corrections);
  show_each(knowledge.procedures);
  show_each(knowledge.cautions);
  show_each(knowledge.tools);
  show_each(knowledge.covers);
  show_each(knowledge.terms);
  show_each(knowledge.features);
}

TEST_CASE("a cause is told in the order in which a mechanic reads it") {
  const auto pages = pages_of(real_bench(), "lifter-one");
  REQUIRE(pages);
  REQUIRE(pages->size() == 1);
  const EntryPage& page = pages->front();
  CHECK(page.kind == "cause");
  CHECK(titles_of(page) ==
        std::vector<std::string>{"Where", "Kinds of it", "Which engines", "How common",
                                 "What it does", "What it does to the gauges",
                                 "What it does not do", "What looks like it, and what parts them",
                                 "Checks that show it", "What mends it", "Cautions", "Sources"});
  const std::string text = to_text(*pages, Look{});
  for (const char* words : {"uncommon", "just-rebuilt  much-more", "usually", "set-lifter",
                            "cure certain", "pump-mounting", "TM6115-584"}) {
    CAPTURE(words);
    CHECK(text.find(words) != std::string::npos);
  }
}

TEST_CASE("the page of a source says what cites it") {
  const auto pages = pages_of(real_bench(), "EN2-93");
  REQUIRE(pages);
  CHECK(pages->front().kind == "source");
  CHECK(to_text(*pages, Look{}).find("smoke-blue") != std::string::npos);
}

TEST_CASE("an id of a correction and a procedure gives both pages") {
  const auto pages = pages_of(real_bench(), "set-lifter");
  REQUIRE(pages);
  REQUIRE(pages->size() == 2);
  CHECK(pages->front().kind == "correction");
  CHECK(pages->back().kind == "procedure");
}

TEST_CASE("an id that is nowhere is told with the nearest") {
  const auto near = pages_of(real_bench(), "lifter-oen");
  REQUIRE_FALSE(near);
  CHECK(to_string(near.error()) ==
        "nothing in the knowledge is called 'lifter-oen', did you mean lifter-one?");
  const auto far = pages_of(real_bench(), "blunderbuss");
  REQUIRE_FALSE(far);
  CHECK(to_string(far.error()) ==
        "nothing in the knowledge is called 'blunderbuss' (search it: sootsayer knowledge find "
        "WORDS)");
}

TEST_CASE("numbers are said in the words of the scale") {
  const soot::Scale& scale = real_bench().scale();
  CHECK(soot::word_of(scale.strength, 0.8) == "usually");
  CHECK(soot::word_of(scale.cure, 0.98) == "certain");
  CHECK(soot::word_of(scale.strength, 0.5) == "50 in 100");
  CHECK(soot::word_of(scale.strength, 0.004) == "0.4 in 100");
  soot::Cause cause;
  cause.grades = {"late", "early"};
  cause.grade_names = {"late", "early"};
  CHECK(soot::strength_words(scale, cause, {0.8, 0}) == "usually when late");
  CHECK(soot::strength_words(scale, cause, {0.8, 0.8}).empty());
  soot::Effect effect;
  effect.written = soot::Dimension::length;
  effect.mean = {0.3, -0.3};
  effect.sd = {0.1, 0};
  CHECK(soot::effect_words(cause, effect) == "late +0.3 mm give or take 0.1 mm, early -0.3 mm");
}
