// Whatever the knowledge holds can be found by the name that it has there.
#include "core/guide/finder.hpp"
#include "core/guide/pages.hpp"
#include "tests/workbench/real_bench.hpp"

#include <algorithm>
#include <random>

using soot::Finder;
using soot::Found;
using soot::Knowledge;
using soot::test::real_bench;

namespace {

const Knowledge& knowledge() {
  static const Knowledge whole = whole_knowledge(real_bench());
  return whole;
}

const Finder& whole_finder() {
  static const Finder made(knowledge());
  return made;
}

template <class Entry>
void find_each(const soot::Entries<Entry>& list, const std::string& kind) {
  CHECK(!list.empty());
  for (const Entry& entry : list) {
    const std::vector<Found> found = whole_finder().find(entry.name);
    const bool is_found = std::any_of(found.begin(), found.end(), [&](const Found& one) {
      return one.kind == kind && one.id == entry.id;
    });
    CHECK_MESSAGE(is_found, kind, " ", entry.id, ": ", entry.name);
  }
}

}  // namespace

TEST_CASE("every entry is found by its own name") {
  find_each(knowledge().symptoms, "symptom");
  find_each(knowledge().quantities, "quantity");
  find_each(knowledge().causes, "cause");
  find_each(knowledge().checks, "check");
  find_each(knowledge().corrections, "correction");
  find_each(knowledge().procedures, "procedure");
  find_each(knowledge().tools, "tool");
  find_each(knowledge().covers, "cover");
  find_each(knowledge().terms, "term");
  find_each(knowledge().features, "feature");
}

TEST_CASE("every symptom comes first for each phrase of its own or shares it") {
  for (const soot::Symptom& symptom : knowledge().symptoms)
    for (const std::string& phrase : symptom.words) {
      const std::vector<Found> found = whole_finder().find(phrase, 5, "symptom");
      REQUIRE_MESSAGE(!found.empty(), phrase);
      const auto own = std::find_if(found.begin(), found.end(),
                                    [&](const Found& one) { return one.id == symptom.id; });
      CHECK_MESSAGE(own != found.end(), symptom.id, ": ", phrase);
      if (own != found.end()) CHECK_MESSAGE(own->score >= found.front().score - 0.1, phrase);
    }
}

TEST_CASE("any words at all give an ordered answer and no more than asked for") {
  std::mt19937 random(20310402);  // fixed: the same nonsense every time
  const std::string letters = "abcdefghijklmnopqrstuvwxyz '-,.\xC2\xB0\xFF";
  for (int round = 0; round < 300; ++round) {
    std::string words;
    for (std::size_t i = random() % 40; i > 0; --i)
      words += letters[random() % letters.size()];
    CAPTURE(words);
    const std::vector<Found> found = whole_finder().find(words, 7);
    CHECK(found.size() <= 7);
    CHECK(std::is_sorted(found.begin(), found.end(),
                         [](const Found& a, const Found& b) { return a.score > b.score; }));
    for (const Found& one : found) {
      CHECK(one.score <= 1 + 1e-9);
      CHECK(one.score >= 0.25);
    }
    (void)whole_finder().heard(words);
  }
}
