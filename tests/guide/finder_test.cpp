// A mechanic's words to ids, on a small list and on the whole knowledge. What words mean here is
// common practice, no published source.
#include "core/guide/finder.hpp"

#include "tests/workbench/real_bench.hpp"

using soot::Finder;
using soot::Found;
using soot::Heard;
using soot::test::hagmoss;

namespace {

const Finder& finder() {
  static const Finder made(hagmoss().knowledge);
  return made;
}

std::string first_symptom(const std::string& words) {
  const std::vector<Found> found = finder().find(words, 10, "symptom");
  return found.empty() ? "" : found.front().id;
}

std::vector<std::string> heard(const std::string& complaint) {
  std::vector<std::string> out;
  for (const Heard& one : finder().heard(complaint))
    out.push_back(one.symptom->id + (one.absent ? " absent" : ""));
  return out;
}

}  // namespace

TEST_CASE("words that mechanics use reach the symptom they mean") {
  CHECK(first_symptom("won't idle") == "stalls-idle");
  CHECK(first_symptom("smokes black pulling") == "smoke-black-load");
  CHECK(first_symptom("oil level rising") == "oil-diluted-fuel");
  CHECK(first_symptom("dies at tick over") == "stalls-idle");
  CHECK(first_symptom("hard starting when cold") == "hard-start-cold");
  CHECK(first_symptom("white smoke first thing") == "smoke-white-cold");
  CHECK(first_symptom("water in the sump oil") == "oil-with-water");
  CHECK(first_symptom("runs away") == "overspeeds");
  CHECK(first_symptom("kicks back") == "kick-back");
}

TEST_CASE("misspelt words count as the nearest known") {
  CHECK(first_symptom("blakc smoek under laod") == "smoke-black-load");
  CHECK(first_symptom("govenor rod jigles") == "governor-rod-jiggles");
}

TEST_CASE("words that mean nothing here find nothing") {
  CHECK(finder().find("qqqqqq zzzzzz").empty());
  CHECK(finder().find("").empty());
}

TEST_CASE("a complaint speaks of its symptoms in its own order") {
  CHECK(heard("slow to start since Easter") == std::vector<std::string>{"hard-start"});
  CHECK(heard("It smokes black when pulling, and it knocks.") ==
        std::vector<std::string>{"smoke-black-load", "knock-combustion"});
  CHECK(heard("nothing to say of it").empty());
}

TEST_CASE("what a complaint denies is heard as absent") {
  CHECK(heard("hunts, but no blue smoke") ==
        std::vector<std::string>{"hunts", "smoke-blue absent"});
}

TEST_CASE("of a general symptom and its special form only the special is heard") {
  const std::vector<std::string> told = heard("hard to start cold");
  CHECK(told == std::vector<std::string>{"hard-start-cold"});
}
