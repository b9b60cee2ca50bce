#include "core/report/cases.hpp"

#include "core/base/text.hpp"
#include "core/report/rank_text.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace soot {

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
  for (const TruthLine& truth : report.truth) {
    std::string line = truth.cause;
    if (truth.cylinder != 0) line += fmt::format(" {}", truth.cylinder);
    if (!truth.grade.empty() && truth.grade != "present") line += ", " + truth.grade;
    line += truth.rank == 0
                ? ": not among the causes of this engine"
                : fmt::format(": ranked {} by cause, {}", truth.rank, percent(truth.probability));
    if (truth.rank != 0 && truth.cylinder != 0 && truth.likeliest_cylinder != truth.cylinder)
      line += fmt::format(", but on cylinder {}", truth.likeliest_cylinder);
    out += fold(line, look.width, "  ", "    ") + "\n";
  }
  if (!report.route.empty())
    out += "\n" + fold(report.route, look.width, "A good route: ", "  ") + "\n";
  if (!report.source.empty()) out += fold(report.source, look.width, "Retold from: ", "  ") + "\n";
  return plain(look, out);
}

}  // namespace soot
