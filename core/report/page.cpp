#include "core/report/page.hpp"

#include "core/base/text.hpp"

#include <fmt/format.h>

namespace soot {
namespace {

// "2031-04-02T09:10:00Z" as "2031-04-02 09:10".
std::string short_time(const std::string& at) {
  if (at.size() < 16) return at;
  return at.substr(0, 10) + " " + at.substr(11, 5);
}

void add_section(std::string_view title, const std::vector<PageLine>& lines, const Look& look,
                 std::string& out) {
  if (lines.empty()) return;
  out += "\n" + strong(look, title) + "\n";
  for (const PageLine& line : lines) {
    const std::string head = fmt::format("{:>4}  {}  ", line.number, short_time(line.at));
    const std::string indent(width_of(head), ' ');
    const std::string text = fold(line.text, look.width, head, indent);
    out += (line.is_struck ? struck(look, text) : text) + "\n";
    if (line.is_struck) out += fold("STRUCK: " + line.reason, look.width, indent, indent) + "\n";
  }
}

void add_words(std::string_view title, const std::vector<std::string>& words, const Look& look,
               std::string& out) {
  if (words.empty()) return;
  out += "\n" + strong(look, title) + "\n";
  for (const std::string& word : words)
    out += fold(word, look.width, "  ", "    ") + "\n";
}

}  // namespace

std::string to_text(const Page& page, const Look& look) {
  std::string out = strong(look, fmt::format("Job {}", page.job));
  out += page.engine_name.empty() ? "" : fmt::format(", engine '{}'", page.engine_name);
  out += fmt::format(", {}\n", page.is_open ? "open" : "closed");
  out += fold(fmt::format("{} ({}), from {}", page.family_name, page.family, page.served_by),
              look.width) +
         "\n";
  out += fmt::format("Opened {} UTC. History: {}\n", short_time(page.opened_at),
                     page.history.empty() ? "not told" : page.history);
  add_section("COMPLAINT", page.complaint, look, out);
  add_section("EVIDENCE", page.evidence, look, out);
  add_section("ADVICE AT THE TIME", page.advice, look, out);
  add_words("CAUSE", page.causes, look, out);
  add_section("CORRECTION", page.correction, look, out);
  add_section("CONFIRMATION", page.confirmation, look, out);
  add_section("NOTES", page.other, look, out);
  add_words("LEFT OPEN", page.left_open, look, out);
  out += "\nThe engine's own book, local rules and licensed practice come first.\n";
  out += "Signed ______________________________   Date ______________\n";
  return plain(look, out);
}

}  // namespace soot
