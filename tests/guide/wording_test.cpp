// Words made comparable. Facts of English, no published source.
#include "core/guide/wording.hpp"

#include <doctest/doctest.h>

using soot::stem;
using soot::Synonyms;
using soot::Wording;
using Words = std::vector<std::string>;

TEST_CASE("endings that only change the form fall away") {
  for (const char* word : {"smoke", "smokes", "smoked", "smoking", "smoky"}) {
    CAPTURE(word);
    CHECK(stem(word) == "smok");
  }
  CHECK(stem("running") == stem("runs"));
  CHECK(stem("slowly") == "slow");
  CHECK(stem("idling") == stem("idle"));
  CHECK(stem("misses") == stem("miss"));
  CHECK(stem("hiss") == stem("hisses"));
}

TEST_CASE("short words and numbers stay") {
  CHECK(stem("gas") == "gas");
  CHECK(stem("red") == "red");
  CHECK(stem("2200") == "2200");
}

TEST_CASE("capitals and hyphens and stops and apostrophes do not part words") {
  const Wording plain({});
  CHECK(plain.tokens("Won't IDLE, tick-over!") == Words{"wont", "idl", "tick", "over"});
  CHECK(plain.tokens("won\xE2\x80\x99t") == Words{"wont"});
  CHECK(plain.tokens("  ...  ") == Words{});
}

TEST_CASE("the longest phrase of the thesaurus is taken and words that say nothing are dropped") {
  const Wording wording({Synonyms{{"", "the", "it"}, {}},
                         Synonyms{{"idle", "tick over", "low idle"}, {}},
                         Synonyms{{"not", "won't"}, {}}});
  CHECK(wording.tokens("it won't tick over") == Words{"=not", "=idle"});
  CHECK(wording.tokens("the low idle") == Words{"=idle"});
  CHECK(wording.tokens("low tick") == Words{"low", "tick"});
}
