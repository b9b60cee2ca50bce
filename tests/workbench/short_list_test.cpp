// What of the planner's proposals is worth a word.
#include "core/workbench/short_list.hpp"

#include <doctest/doctest.h>

using soot::NextAnswer;
using soot::ProposalLine;
using soot::Verdict;

namespace {

ProposalLine look(const std::string& id, double price, double saving) {
  ProposalLine line;
  line.id = id;
  line.price = price;
  line.saving_over_not_looking = saving;
  return line;
}

ProposalLine work(const std::string& id, double price, double mends) {
  ProposalLine line;
  line.kind = ProposalLine::Kind::correction;
  line.id = id;
  line.price = price;
  line.mends = mends;
  return line;
}

std::vector<std::string> ids_of(const NextAnswer& answer) {
  std::vector<std::string> ids;
  for (const ProposalLine& line : answer.proposals)
    ids.push_back(line.id);
  return ids;
}

NextAnswer shortened(std::vector<ProposalLine> lines) {
  NextAnswer answer;
  answer.verdict = Verdict::look;
  answer.proposals = std::move(lines);
  shorten(answer, 400);
  return answer;
}

}  // namespace

TEST_CASE(
    "a look gives way to likely work that it could keep from being in vain for minutes only") {
  const NextAnswer answer =
      shortened({look("smoke", 2, 60), work("set-lifter", 35, 0.75), work("gasket", 200, 0.02)});
  CHECK(answer.verdict == Verdict::correct);
  CHECK(ids_of(answer) == std::vector<std::string>{"set-lifter"});
}

TEST_CASE("a cheap look goes before dear work that may be in vain") {
  const NextAnswer answer = shortened({look("oil-level", 2, 25), work("clear-air", 130, 0.8)});
  CHECK(answer.verdict == Verdict::look);
  CHECK(ids_of(answer) == std::vector<std::string>{"oil-level", "clear-air"});
}

TEST_CASE("looks that save next to nothing and work that mends next to nothing are left out") {
  const NextAnswer answer = shortened({look("a", 2, 60), look("b", 5, 40), look("a", 9, 30),
                                       look("c", 5, 4), work("d", 20, 0.05), work("e", 20, 0.4)});
  CHECK(answer.verdict == Verdict::look);
  CHECK(ids_of(answer) == std::vector<std::string>{"a", "b", "e"});
}

TEST_CASE("the first proposal always stays") {
  CHECK(ids_of(shortened({look("a", 2, 1), work("b", 20, 0.01)})) == std::vector<std::string>{"a"});
  CHECK(ids_of(shortened({})).empty());
}
