// The ranking and the weighing of a cause, word for word, at 80 columns.
#include "core/report/rank_text.hpp"

#include "tests/report/answers_by_hand.hpp"

#include <doctest/doctest.h>

using soot::Look;
using soot::to_text;
using soot::test::ranked_by_hand;
using soot::test::weighed_by_hand;
using soot::test::widest;

TEST_CASE("a ranking in words") {
  CHECK(to_text(ranked_by_hand(), Look{}) == R"(Grebe three (grebe-3)
History: just-rebuilt

Causes, most probable first (on any cylinder; one that stands out is named):
     88 %  lifter-one 3
           one lifter set wrong: grossly late 80 %
     12 %  gear-tooth-out
           a gear meshed a tooth out, so that the whole of the injection is late
             by as much as one tooth of the wheel
    0.4 %  instrument-wrong (lifter-depth)
           the instrument is wrong
 < 0.01 %  air-ingress
           air in the fuel

Chance that nothing in this list explains it:
      4 %  hard-start
    0.2 %  spray-wet 2

Taken together, most probable first (these cover 93 %):
     81 %  lifter-one 3 (grossly late)
     10 %  gear-tooth-out + lifter-one 1 (early)
      2 %  none of these causes (chance, a wrong instrument, or not listed)

Fits worst: lifter-depth 3: 29.41 mm (a chance of 3 % given all the rest)

Note: hard-start is covered by the more exact report beside it
)");
}

TEST_CASE("a cylinder that holds a part only of its cause says how much") {
  soot::RankAnswer answer = ranked_by_hand();
  answer.by_cause.front().of_likeliest = 0.3;
  CHECK(to_text(answer, Look{}).find("     88 %  lifter-one, likeliest on 3 (30 %)\n") !=
        std::string::npos);
}

TEST_CASE("no cylinder is named where none stands out") {
  soot::RankAnswer answer = ranked_by_hand();
  answer.by_cause.front().of_likeliest = 0.3;
  answer.by_cause.front().of_next = 0.29;
  CHECK(to_text(answer, Look{}).find("     88 %  lifter-one, on any\n") != std::string::npos);
}

TEST_CASE("a history that was not told is guessed at") {
  soot::RankAnswer answer = ranked_by_hand();
  answer.known_history.reset();
  answer.history = {{"just-rebuilt", 0.93},
                    {"just-serviced", 0.03},
                    {"long-service", 0.02},
                    {"long-storage", 0.015},
                    {"ordinary", 0.005}};
  const std::string text = to_text(answer, Look{});
  CHECK(text.find("\nHistory not told; it looks like just-rebuilt 93 %, just-serviced 3 %,\n"
                  "long-service 2 %, long-storage 2 %, ordinary 0.5 %\n") != std::string::npos);
}

TEST_CASE("only so many causes are shown and the rest counted") {
  const std::string text = to_text(ranked_by_hand(), Look{}, 2);
  CHECK(text.find("\n           2 other causes, each at most 0.4 %\n") != std::string::npos);
  CHECK(text.find("air-ingress") == std::string::npos);
}

TEST_CASE("what cannot happen is said instead of a ranking") {
  soot::RankAnswer answer = ranked_by_hand();
  answer.impossible = true;
  answer.remarks.clear();
  CHECK(to_text(answer, Look{}) ==
        "Grebe three (grebe-3)\n"
        "What was entered cannot happen under the knowledge: no cause explains it. Cross\n"
        "out the line that is wrong (sootsayer strike).\n");
}

TEST_CASE("a cause weighed in words") {
  const std::string text = to_text(weighed_by_hand(), Look{});
  CHECK(text.starts_with(R"(lifter-one 3  87 %
one lifter set wrong. Its screw was not set to the figure, so that this cylinder
fires late or early.
To part it: It leaves the other cylinders alone.

Before anything was seen or measured: 2 %
)"));
  CHECK(text.ends_with(R"(
For it:
        x 1200  lifter-depth 3: 29.41 mm
         x 3.0  hard-start: present

Against it:
         / 2.5  white-smoke: absent
  rules it out  top-mark: >3 deg

1 other line speaks neither way.
)"));
}

TEST_CASE("no line of a ranking or a weighing is longer than eighty characters") {
  soot::RankAnswer answer = ranked_by_hand();
  std::string words;
  for (int i = 0; i < 60; ++i)
    words += "several long words ";
  answer.by_cause.front().name = words;
  answer.remarks.push_back(words);
  answer.known_history.reset();
  for (int i = 0; i < 12; ++i)
    answer.explanations[1].causes.push_back(answer.explanations[1].causes[0]);
  CHECK(widest(to_text(answer, Look{})) <= 80);
  soot::WeighAnswer weighed = weighed_by_hand();
  weighed.about = weighed.not_about = words;
  CHECK(widest(to_text(weighed, Look{})) <= 80);
}

TEST_CASE("colour adds nothing but colour") {
  std::string text = to_text(ranked_by_hand(), Look{80, true, true});
  for (std::size_t at = text.find('\x1b'); at != std::string::npos; at = text.find('\x1b'))
    text.erase(at, text.find('m', at) + 1 - at);
  CHECK(text == to_text(ranked_by_hand(), Look{}));
}

TEST_CASE("whether the order holds is a line or two") {
  soot::RankAnswer answer = ranked_by_hand();
  answer.stability =
      soot::StabilityLine{2, 40, 0.95, 1, {{"air-ingress", ""}, {"lifter-one", "low-power"}}};
  CHECK(to_text(answer, Look{}).find(R"(
If the knowledge's numbers were off by up to a factor 2: in 38 of 40 trials the
first stays first, in 40 among the first three. It hangs on how common
air-ingress is; low-power of lifter-one.
)") != std::string::npos);
}

TEST_CASE("an estimate says that it is one and why") {
  soot::RankAnswer answer = ranked_by_hand();
  answer.exact = false;
  answer.sampled = "too much work: 40 findings";
  answer.standard_error = 0.02;
  CHECK(to_text(answer, Look{}).find(R"(
Estimated, not computed: too much work: 40 findings. Standard error of a chance
above: at most 2 %.
)") != std::string::npos);
}
