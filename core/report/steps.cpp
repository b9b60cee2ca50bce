#include "core/report/steps.hpp"

#include "core/base/text.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

namespace soot {
namespace {

void add_cautions(const std::vector<std::string>& cautions, const Look& look,
                  std::string_view indent, std::string& out) {
  for (const std::string& caution : cautions)
    out += fold(caution, look.width, fmt::format("{}CAUTION: ", indent),
                fmt::format("{}         ", indent)) +
           "\n";
}

}  // namespace

std::string to_text(const StepsSheet& sheet, const Look& look) {
  std::string out = fmt::format("{}  ({}, {})\n", strong(look, sheet.id), sheet.kind, sheet.family);
  out += fold(sheet.name, look.width) + "\n";
  if (!sheet.tells.empty()) out += fold(sheet.tells, look.width) + "\n";
  if (sheet.minutes > 0) {
    out += fmt::format("\nTime:   {}", duration(sheet.minutes));
    if (sheet.all_minutes > sheet.minutes)
      out += fmt::format(" for one cylinder, {} for all {}", duration(sheet.all_minutes),
                         sheet.cylinders);
    if (sheet.opening_minutes > 0)
      out += fmt::format(", and {} to open and close", duration(sheet.opening_minutes));
    out += "\n" + fold(sheet.state, look.width, "Engine: ", "        ") + "\n";
  }
  if (!sheet.tools.empty())
    out +=
        fold(fmt::format("{}", fmt::join(sheet.tools, "; ")), look.width, "Tools:  ", "        ") +
        "\n";
  for (const std::string& figure : sheet.figures)
    out += fold(figure, look.width, "Figure: ", "        ") + "\n";
  for (std::size_t i = 0; i < sheet.setting.size(); ++i)
    out += fold(sheet.setting[i], look.width, i == 0 ? "Set:    - " : "        - ", "          ") +
           "\n";
  out += "Book:   where the engine's own book differs, the book goes first\n";
  if (!sheet.cautions.empty()) out += "\n";
  add_cautions(sheet.cautions, look, "", out);
  out += "\n";
  for (std::size_t i = 0; i < sheet.lines.size(); ++i) {
    add_cautions(sheet.lines[i].cautions, look, "    ", out);
    out += fold(sheet.lines[i].text, look.width, fmt::format("{:>2}. ", i + 1), "    ") + "\n";
  }
  if (!sheet.means.empty())
    out += "\n" + fold(sheet.means, look.width, "It means: ", "          ") + "\n";
  for (const std::string& remark : sheet.remarks)
    out += fold(remark, look.width, "Note: ", "      ") + "\n";
  return plain(look, out);
}

}  // namespace soot
