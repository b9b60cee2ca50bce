// Answers made by hand, invented from end to end, for the writers to print; and the width of what
// they print.
#pragma once

#include "core/base/text.hpp"
#include "core/report/answers.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <string>

namespace soot::test {

inline RankAnswer ranked_by_hand() {
  RankAnswer answer;
  answer.family = "grebe-3";
  answer.family_name = "Grebe three";
  answer.error_bound = 1e-12;
  answer.known_history = "just-rebuilt";
  answer.history = {{"just-rebuilt", 1.0}, {"ordinary", 0.0}};
  const std::vector<GradeChance> late{{"late-slight", "slightly late", 0.07},
                                      {"late-gross", "grossly late", 0.8},
                                      {"early", "early", 0.001}};
  answer.causes = {{"lifter-one", "one lifter set wrong", 3, "", 0.871, late, 0.871},
                   {"gear-tooth-out", "a gear meshed a tooth out", 0, "", 0.12, {}}};
  answer.by_cause = {{"lifter-one", "one lifter set wrong", 3, "", 0.878, late, 0.871},
                     {"gear-tooth-out",
                      "a gear meshed a tooth out, so that the whole of the injection is late by "
                      "as much as one tooth of the wheel",
                      0,
                      "",
                      0.12,
                      {{"present", "present", 0.12}}},
                     {"instrument-wrong", "the instrument is wrong", 0, "lifter-depth", 0.0042, {}},
                     {"air-ingress", "air in the fuel", 0, "", 0.00003, {}}};
  answer.not_listed = {{"hard-start", "hard to start", 0, 0.0431}, {"spray-wet", "wet", 2, 0.002}};
  answer.explanations = {
      {0.81, {{"lifter-one", "one lifter set wrong", "late-gross", "grossly late", 3}}},
      {0.1,
       {{"gear-tooth-out", "a gear meshed a tooth out", "present", "present", 0},
        {"lifter-one", "one lifter set wrong", "early", "early", 1}}},
      {0.02, {}}};
  answer.log10_evidence = -7.25;
  answer.worst_fit =
      WorstFitLine{{true, "lifter-depth", "depth of the lifter", 3, "29.41 mm"}, 0.031};
  answer.remarks = {"hard-start is covered by the more exact report beside it"};
  return answer;
}

inline WeighAnswer weighed_by_hand() {
  WeighAnswer answer;
  answer.family = "grebe-3";
  answer.cause = "lifter-one";
  answer.name = "one lifter set wrong";
  answer.about = "Its screw was not set to the figure, so that this cylinder fires late or early.";
  answer.not_about = "It leaves the other cylinders alone.";
  answer.cylinder = 3;
  answer.prior = 0.015;
  answer.probability = 0.871;
  const double inf = std::numeric_limits<double>::infinity();
  answer.lines = {{{true, "lifter-depth", "depth", 3, "29.41 mm"}, std::log(1200.0)},
                  {{false, "hard-start", "hard to start", 0, "present"}, std::log(3.0)},
                  {{false, "white-smoke", "white smoke", 0, "absent"}, -std::log(2.5)},
                  {{false, "spray-wet", "wet", 2, "absent, unsure"}, 0.01},
                  {{true, "top-mark", "mark", 0, ">3 deg"}, -inf}};
  return answer;
}

inline NextAnswer proposed_by_hand() {
  NextAnswer answer;
  answer.family = "grebe-3";
  answer.verdict = Verdict::look;
  ProposalLine check;
  check.id = "lifter-depth";
  check.name = "Measure the depth of the lifter below the face of its pump";
  check.cylinders = {1, 2, 3};
  check.minutes = 25;
  check.opening_minutes = 10;
  check.cost = 140.5;
  check.saving = 31;
  check.saving_over_not_looking = 64;
  check.parts = {{"lifter-one", "one lifter set wrong", 3}, {"gear-tooth-out", "tooth out", 0}};
  check.cautions = {
      "Bar the engine by hand only, with the fuel off and the decompressor lifted, and "
      "keep the bar clear of the wheel."};
  check.tools = {"depth micrometer", "bar"};
  ProposalLine run;
  run.kind = ProposalLine::Kind::run;
  run.id = "proving-run";
  run.name = "Run it";
  run.minutes = 15;
  answer.proposals = {check, run};
  answer.not_listed = 0.043;
  return answer;
}

/// Characters of the longest line, colours not counted.
inline std::size_t widest(const std::string& text) {
  std::size_t most = 0;
  for (const std::string& line : split(text, '\n'))
    most = std::max(most, width_of(line));
  return most;
}

}  // namespace soot::test
