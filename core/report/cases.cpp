#include "core/report/cases.hpp"

#include "core/base/text.hpp"
#include "core/model/words.hpp"
#include "core/report/rank_text.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace soot {
namespace {

std::string truth_line(const TruthLine& truth) {
  if (truth.cause == not_listed_cause)
    return fmt::format("{}: nothing in the list; {} is left to such a cause", truth.cause,
                       percent(truth.probability));
  std::string line = truth.cause;
  if (truth.cylinder != 0) line += fmt::format(" {}", truth.cylinder);
  if (!truth.grade.empty() && truth.grade != only_grade) line += ", " + truth.grade;
  if (truth.rank == 0) return line + ": not among the causes of this engine";
  line += fmt::format(": ranked {} by cause, {}", truth.rank, percent(truth.probability));
  if (truth.cylinder != 0 && truth.likeliest_cylinder != truth.cylinder)
    line += fmt::format(", but on cylinder {}", truth.likeliest_cylinder);
  return line;
}

// An address has no blanks to fold at: it is broken behind its slashes and signs, on lines of its
// own.
std::string address(std::string_view text, std::size_t width) {
  constexpr std::string_view head = "Retold from:", indent = "  ", breaks = "/?&=-_.#";
  if (head.size() + 1 + text.size() <= width) return fmt::format("{} {}", head, text);
  std::string out{head};
  const std::size_t room = width > indent.size() + 1 ? width - indent.size() : 1;
  while (!text.empty()) {
    std::size_t take = std::min(room, text.size());
    if (take < text.size()) {
      const std::size_t at = text.substr(0, take).find_last_of(breaks);
      if (at != std::string_view::npos) take = at + 1;
    }
    out += fmt::format("\n{}{}", indent, text.substr(0, take));
    text.remove_prefix(take);
  }
  return out;
}

}  // namespace

std::string to_text(const std::vector<CaseTitle>& titles, const Look& look) {
  std::size_t width = 0;
  for (const CaseTitle& title : titles)
    width = std::max(width, title.name.size());
  std::string out;
  for (const CaseTitle& title : titles)
    out += fold(fmt::format("{} ({})", title.title, title.family), look.width,
                fmt::format("{:<{}}  ", title.name, width), std::string(width + 2, ' ')) +
           "\n";
  return plain(look, out);
}

std::string to_text(const CaseReport& report, const Look& look) {
  std::string out = strong(look, report.title) + "\n\n" + fold(report.story, look.width) + "\n\n";
  out += to_text(report.rank, look, 5);
  out += "\n" + strong(look, "The truth") + "\n";
  for (const TruthLine& truth : report.truth)
    out += fold(truth_line(truth), look.width, "  ", "    ") + "\n";
  if (!report.route.empty())
    out += "\n" + fold(report.route, look.width, "A good route: ", "  ") + "\n";
  if (!report.source.empty()) out += address(report.source, look.width) + "\n";
  return plain(look, out);
}

}  // namespace soot
