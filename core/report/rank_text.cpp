#include "core/report/rank_text.hpp"

#include "core/base/text.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <set>

namespace soot {
namespace {

std::string on_cylinder(int cylinder) {
  return cylinder == 0 ? std::string{} : fmt::format(" {}", cylinder);
}

std::string said_of(const EvidenceName& evidence) {
  return fmt::format("{}{}: {}", evidence.id, on_cylinder(evidence.cylinder), evidence.said);
}

// "very late 80 %, a little late 7 %", the likeliest first; nothing for a cause without grades.
std::string grades_line(const CauseLine& line) {
  if (line.grades.size() < 2) return {};
  std::vector<GradeChance> sorted = line.grades;
  std::stable_sort(sorted.begin(), sorted.end(), [](const GradeChance& a, const GradeChance& b) {
    return a.probability > b.probability;
  });
  std::string out;
  for (const GradeChance& grade : sorted) {
    if (grade.probability < 0.1 * line.of_likeliest && !out.empty()) break;
    out += fmt::format("{}{} {}", out.empty() ? "" : ", ", grade.name, percent(grade.probability));
  }
  return out;
}

// "valve-leak 3", "valve-leak, likeliest on 3 (6 %)" where other cylinders hold a good part, or
// "valve-leak, on any" where nothing says on which.
std::string head_of(const CauseLine& line) {
  if (!line.quantity.empty()) return fmt::format("{} ({})", line.id, line.quantity);
  constexpr double nearly_all = 0.9;
  if (line.cylinder == 0 || line.of_likeliest >= nearly_all * line.probability)
    return line.id + on_cylinder(line.cylinder);
  constexpr double stands_out = 1.1;
  if (line.of_likeliest < stands_out * line.of_next) return line.id + ", on any";
  return fmt::format("{}, likeliest on {} ({})", line.id, line.cylinder,
                     percent(line.of_likeliest));
}

void add_cause(const CauseLine& line, const Look& look, std::string& out) {
  out += fmt::format("{:>9}  {}\n", percent(line.probability), strong(look, head_of(line)));
  const std::string grades = grades_line(line);
  out += fold(line.name + (grades.empty() ? "" : ": " + grades), look.width, "           ",
              "             ") +
         "\n";
}

void add_explanations(const RankAnswer& answer, const Look& look, std::string& out) {
  double covered = 0;
  for (const ExplanationLine& line : answer.explanations)
    covered += line.probability;
  out += fmt::format("\nTaken together, most probable first (these cover {}):\n", percent(covered));
  for (const ExplanationLine& line : answer.explanations) {
    std::string causes;
    for (const ExplanationLine::Part& part : line.causes)
      causes +=
          fmt::format("{}{}{}{}", causes.empty() ? "" : " + ", part.id, on_cylinder(part.cylinder),
                      part.grade == "present" ? "" : " (" + part.grade_name + ")");
    if (causes.empty()) causes = "none of these causes (chance, a wrong instrument, or not listed)";
    out +=
        fold(causes, look.width, fmt::format("{:>9}  ", percent(line.probability)), "           ") +
        "\n";
  }
}

// The last digit of the finest percentage: less given up for speed shows nowhere (the JSON has it).
constexpr double least_shown = 1e-4;

void add_stability(const StabilityLine& line, const Look& look, std::string& out) {
  const auto trials = [&](double share) {
    return std::lround(share * static_cast<double>(line.draws));
  };
  std::string text = fmt::format(
      "If the knowledge's numbers were off by up to a factor {:g}: in {} of {} trials the first "
      "stays first, in {} among the first three.",
      line.factor, trials(line.stays_first), line.draws, trials(line.stays_in_three));
  std::vector<std::string> hinges;
  for (const StabilityLine::Hinge& hinge : line.hinges)
    hinges.push_back(hinge.symptom.empty() ? fmt::format("how common {} is", hinge.cause)
                                           : fmt::format("{} of {}", hinge.symptom, hinge.cause));
  constexpr std::size_t most_named = 3;
  if (hinges.size() > most_named) hinges.resize(most_named);
  if (!hinges.empty()) text += fmt::format(" It hangs on {}.", fmt::join(hinges, "; "));
  out += "\n" + fold(text, look.width) + "\n";
}

void add_remarks(const std::vector<std::string>& remarks, const Look& look, std::string& out) {
  if (remarks.empty()) return;
  out += "\n";
  for (const std::string& remark : remarks)
    out += fold(remark, look.width, "Note: ", "      ") + "\n";
}

std::string cylinders_of(const std::vector<int>& cylinders) {
  if (cylinders.empty()) return {};
  return fmt::format(" on cylinder{} {}", cylinders.size() > 1 ? "s" : "",
                     fmt::join(cylinders, ", "));
}

std::string_view sentence_of(Verdict verdict) {
  switch (verdict) {
    case Verdict::look:
      return "Look further before anything is set or renewed.";
    case Verdict::correct:
      return "Put it right now; looking further would still tell something, but costs more.";
    case Verdict::enough:
      return "Enough is known: put it right.";
    case Verdict::prove:
      return "Run it under the conditions of the complaint, and say how it went.";
    case Verdict::stuck:
      return "Stuck: what is left cannot be parted with the tools at hand.";
    case Verdict::hand_over:
      return "Nothing here is worth its cost: hand it over to a specialist.";
    case Verdict::cured:
      return "Cured and proved: nothing is left to do but to close the job.";
  }
  return "";
}

// A saving that is a loose upper bound (short_list.cpp), as coarse as it is known: to 5 minutes,
// above an hour to 10.
double rounded(double minutes) {
  const double step = minutes < 10 ? 1 : minutes < 60 ? 5 : 10;
  return step * std::round(minutes / step);
}

// Expected costs are known to a few parts in a hundred: of looks that come out alike the mechanic
// takes the one that suits him.
constexpr double alike = 0.02;

std::string alike_words(const std::vector<ProposalLine>& proposals, std::size_t shown) {
  const auto is_alike = [&](const ProposalLine& line) {
    return line.kind == ProposalLine::Kind::check &&
           line.cost <= (1 + alike) * proposals.front().cost;
  };
  std::size_t count = 0;
  while (count < std::min(shown, proposals.size()) && is_alike(proposals[count]))
    ++count;
  if (count < 2) return "";
  std::vector<std::string> numbers;
  for (std::size_t i = 1; i < count; ++i)
    numbers.push_back(std::to_string(i));
  return fmt::format("{} and {} come out alike: begin with the one nearer to hand",
                     fmt::join(numbers, ", "), count);
}

// `said`: cautions that stand above already; each is read once, at the first thing it goes with.
void add_proposal(const ProposalLine& proposal, std::size_t number, const Look& look,
                  std::set<std::string>& said, std::string& out) {
  const std::string head = fmt::format("{}{}", proposal.id, cylinders_of(proposal.cylinders));
  out += fmt::format("\n{}. {}  {}\n", number, strong(look, head),
                     faint(look, std::string{name_of(proposal.kind)}));
  out += fold(proposal.name, look.width, "   ", "   ") + "\n";
  std::string cost = "   " + duration(proposal.minutes);
  if (proposal.opening_minutes > 0)
    cost += fmt::format(" and {} to get at it", duration(proposal.opening_minutes));
  if (proposal.kind == ProposalLine::Kind::correction)
    cost += fmt::format("; {} that it mends a fault", percent(proposal.mends));
  if (proposal.saving_over_not_looking >= 0.5)
    cost += fmt::format("; looking first may spare up to {}",
                        duration(rounded(proposal.saving_over_not_looking)));
  out += fold(cost, look.width, "   ", "   ") + "\n";
  if (!proposal.parts.empty()) {
    std::vector<std::string> suspects;
    for (const ProposalLine::Suspect& suspect : proposal.parts)
      suspects.push_back(suspect.cause + on_cylinder(suspect.cylinder));
    out += fold(fmt::format("parts {}", fmt::join(suspects, " from ")), look.width, "   ", "   ") +
           "\n";
  }
  if (!proposal.tools.empty())
    out +=
        fold(fmt::format("needs {}", fmt::join(proposal.tools, "; ")), look.width, "   ", "   ") +
        "\n";
  for (const std::string& caution : proposal.cautions)
    if (said.insert(caution).second)
      out += fold(caution, look.width, "   CAUTION: ", "            ") + "\n";
}

}  // namespace

std::string_view name_of(Verdict verdict) {
  constexpr std::string_view names[] = {"look",  "correct",   "enough", "prove",
                                        "stuck", "hand-over", "cured"};
  return names[static_cast<std::size_t>(verdict)];
}

std::string_view name_of(ProposalLine::Kind kind) {
  constexpr std::string_view names[] = {"check", "correction", "run", "hand-over"};
  return names[static_cast<std::size_t>(kind)];
}

std::string to_text(const RankAnswer& answer, const Look& look, std::size_t shown) {
  std::string out = fmt::format("{} ({})\n", strong(look, answer.family_name), answer.family);
  if (answer.impossible) {
    out +=
        fold(
            "What was entered cannot happen under the knowledge: no cause explains it. Cross out "
            "the line that is wrong (sootsayer strike).",
            look.width) +
        "\n";
    add_remarks(answer.remarks, look, out);
    return plain(look, out);
  }
  if (answer.known_history) {
    out += fmt::format("History: {}\n", *answer.known_history);
  } else {
    std::vector<std::string> parts;
    for (const auto& [history, p] : answer.history)
      parts.push_back(fmt::format("{} {}", history, percent(p)));
    out += fold(fmt::format("History not told; it looks like {}", fmt::join(parts, ", ")),
                look.width) +
           "\n";
  }
  out += "\nCauses, most probable first (on any cylinder; one that stands out is named):\n";
  for (std::size_t i = 0; i < std::min(shown, answer.by_cause.size()); ++i)
    add_cause(answer.by_cause[i], look, out);
  if (answer.by_cause.size() > shown) {
    const std::size_t others = answer.by_cause.size() - shown;
    out += fmt::format("{:>9}  {} other cause{}, each at most {}\n", "", others,
                       others == 1 ? "" : "s", percent(answer.by_cause[shown].probability));
  }
  if (!answer.not_listed.empty()) {
    out += "\nChance that nothing in this list explains it:\n";
    for (const NotListedLine& line : answer.not_listed)
      out += fmt::format("{:>9}  {}{}\n", percent(line.probability), line.symptom,
                         on_cylinder(line.cylinder));
  }
  if (!answer.explanations.empty()) add_explanations(answer, look, out);
  if (answer.sampled)
    out +=
        "\n" +
        fold(fmt::format("Estimated, not computed: {}. Standard error of a chance above: at most "
                         "{}.",
                         *answer.sampled, percent(answer.standard_error)),
             look.width) +
        "\n";
  else if (!answer.exact && answer.error_bound >= least_shown)
    out += "\n" +
           fold(fmt::format("To save time, rare combinations were left out: no chance above is off "
                            "by more than about {}.",
                            percent(answer.error_bound)),
                look.width) +
           "\n";
  if (answer.stability) add_stability(*answer.stability, look, out);
  if (answer.worst_fit)
    out += "\n" +
           fold(fmt::format("Fits worst: {} (a chance of {} given all the rest)",
                            said_of(answer.worst_fit->evidence),
                            percent(answer.worst_fit->probability)),
                look.width) +
           "\n";
  add_remarks(answer.remarks, look, out);
  return plain(look, out);
}

std::string to_text(const WeighAnswer& answer, const Look& look) {
  std::string out =
      fmt::format("{}  {}\n", strong(look, answer.cause + on_cylinder(answer.cylinder)),
                  percent(answer.probability));
  out += fold(answer.name + ". " + answer.about, look.width) + "\n";
  if (!answer.not_about.empty()) out += fold("To part it: " + answer.not_about, look.width) + "\n";
  out += fmt::format("\nBefore anything was seen or measured: {}\n", percent(answer.prior));
  out +=
      "Each line: with it the odds are so many times (x) or so much less (/) what\n"
      "they are with everything else alone. What several lines say alike weighs little\n"
      "in each of them.\n";
  const auto add_lines = [&](std::string_view title, bool wanted_for) {
    std::string lines;
    for (const WeightLine& line : answer.lines)
      if (std::abs(line.log_odds) >= 0.05 && (line.log_odds > 0) == wanted_for)
        lines += fmt::format("{:>14}  {}\n", factor(line.log_odds), said_of(line.evidence));
    if (!lines.empty()) out += fmt::format("\n{}\n{}", title, lines);
  };
  add_lines("For it:", true);
  add_lines("Against it:", false);
  std::size_t silent = 0;
  for (const WeightLine& line : answer.lines)
    if (std::abs(line.log_odds) < 0.05) ++silent;
  if (silent > 0)
    out += fmt::format("\n{} other line{} neither way.\n", silent,
                       silent == 1 ? " speaks" : "s speak");
  add_remarks(answer.remarks, look, out);
  return plain(look, out);
}

std::string to_text(const NextAnswer& answer, const Look& look, std::size_t shown) {
  const bool measures = !answer.proposals.empty() && answer.proposals.front().id == "measure-again";
  const std::string_view sentence =
      measures ? "Nothing need be wrong: measure again before anything is touched."
               : sentence_of(answer.verdict);
  std::string out = strong(look, std::string{sentence}) + "\n";
  std::set<std::string> said;
  for (std::size_t i = 0; i < std::min(shown, answer.proposals.size()); ++i)
    add_proposal(answer.proposals[i], i + 1, look, said, out);
  if (const std::string words = alike_words(answer.proposals, shown); !words.empty())
    out += "\n" + fold(words, look.width) + "\n";
  if (answer.verdict != Verdict::cured && answer.not_listed > 0)
    out +=
        fmt::format("\nChance that the cause is not in the list: {}\n", percent(answer.not_listed));
  add_remarks(answer.remarks, look, out);
  return plain(look, out);
}

}  // namespace soot
