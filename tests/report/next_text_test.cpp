// The next move, word for word, at 80 columns.
#include "core/report/rank_text.hpp"
#include "tests/report/answers_by_hand.hpp"

#include <doctest/doctest.h>

using soot::Look;
using soot::to_text;
using soot::Verdict;
using soot::test::proposed_by_hand;
using soot::test::widest;

TEST_CASE("a proposal in words") {
  CHECK(to_text(proposed_by_hand(), Look{}) == R"(Look further before anything is set or renewed.

1. lifter-depth on cylinders 1, 2, 3  check
   Measure the depth of the lifter below the face of its pump
   25 min and 10 min to get at it; looking first may spare up to 60 min
   parts lifter-one 3 from gear-tooth-out
   needs depth micrometer; bar
   CAUTION: Bar the engine by hand only, with the fuel off and the decompressor
            lifted, and keep the bar clear of the wheel.

2. proving-run  run
   Run it
   15 min

Chance that the cause is not in the list: 4 %
)");
}

TEST_CASE("a caution is read once at the first proposal that it goes with") {
  soot::NextAnswer answer = proposed_by_hand();
  answer.proposals[1].cautions = answer.proposals[0].cautions;
  answer.proposals[1].cautions.push_back("Guards on.");
  const std::string text = to_text(answer, Look{});
  CHECK(text.find("   15 min\n   CAUTION: Guards on.\n") != std::string::npos);
  const std::string first = "CAUTION: Bar the engine";
  CHECK(text.find(first) != std::string::npos);
  CHECK(text.find(first) == text.rfind(first));
}

TEST_CASE("looks whose costs differ by less than they are known to are said to come out alike") {
  soot::NextAnswer answer = proposed_by_hand();
  answer.proposals.assign(3, answer.proposals.front());
  answer.proposals[1].cost = answer.proposals[0].cost * 1.01;
  answer.proposals[2].cost = answer.proposals[0].cost * 1.03;
  const std::string words = "\n1 and 2 come out alike: begin with the one nearer to hand\n";
  CHECK(to_text(answer, Look{}).find(words) != std::string::npos);
  answer.proposals[1].cost = answer.proposals[0].cost * 1.03;
  CHECK(to_text(answer, Look{}).find("come out alike") == std::string::npos);
  answer.proposals[1] = answer.proposals[0];
  answer.proposals[1].kind = soot::ProposalLine::Kind::correction;
  CHECK(to_text(answer, Look{}).find("come out alike") == std::string::npos);
}

TEST_CASE(
    "a correction says how likely it is to mend something, measuring again that nothing need be") {
  soot::NextAnswer answer;
  answer.verdict = Verdict::prove;
  answer.proposals.resize(2);
  answer.proposals[0].kind = soot::ProposalLine::Kind::run;
  answer.proposals[0].id = "measure-again";
  answer.proposals[0].name = "Measure once more";
  answer.proposals[0].minutes = 15;
  answer.proposals[1].kind = soot::ProposalLine::Kind::correction;
  answer.proposals[1].id = "set-lifter";
  answer.proposals[1].cylinders = {3};
  answer.proposals[1].name = "Set it";
  answer.proposals[1].minutes = 25;
  answer.proposals[1].mends = 0.31;
  CHECK(to_text(answer, Look{}) ==
        R"(Nothing need be wrong: measure again before anything is touched.

1. measure-again  run
   Measure once more
   15 min

2. set-lifter on cylinder 3  correction
   Set it
   25 min; 31 % that it mends a fault
)");
}

TEST_CASE("every verdict has its word and its sentence") {
  const std::pair<Verdict, std::string> words[] = {
      {Verdict::look, "look"},   {Verdict::correct, "correct"}, {Verdict::enough, "enough"},
      {Verdict::prove, "prove"}, {Verdict::stuck, "stuck"},     {Verdict::hand_over, "hand-over"},
      {Verdict::cured, "cured"}};
  std::vector<std::string> sentences;
  for (const auto& [verdict, word] : words) {
    CHECK(soot::name_of(verdict) == word);
    soot::NextAnswer answer;
    answer.verdict = verdict;
    sentences.push_back(to_text(answer, Look{}));
    CHECK(sentences.back().size() > 20);
  }
  std::sort(sentences.begin(), sentences.end());
  CHECK(std::unique(sentences.begin(), sentences.end()) == sentences.end());
}

TEST_CASE("only so many proposals are shown") {
  const std::string text = to_text(proposed_by_hand(), Look{}, 1);
  CHECK(text.find("1. lifter-depth") != std::string::npos);
  CHECK(text.find("proving-run") == std::string::npos);
}

TEST_CASE("no line of a proposal is longer than eighty characters") {
  soot::NextAnswer answer = proposed_by_hand();
  std::string words;
  for (int i = 0; i < 40; ++i)
    words += "several long words ";
  answer.proposals[0].name = words;
  answer.proposals[0].cautions.push_back(words);
  answer.proposals[0].cylinders = {1, 2, 3, 4, 5, 6};
  for (int i = 0; i < 12; ++i)
    answer.proposals[0].tools.push_back("magnifying glass");
  answer.remarks.push_back(words);
  CHECK(widest(to_text(answer, Look{})) <= 80);
}
