#include "core/report/bench_form.hpp"

#include "core/base/text.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace soot {
namespace {

constexpr std::size_t row_head_width = 15;

std::string blank(std::string_view label, std::size_t width) {
  return fmt::format("{} {}", label, std::string(width, '_'));
}

std::string centred(std::string_view text, std::size_t width) {
  return fmt::format("{:^{}}", text.substr(0, width), width);
}

std::size_t width_of_round(const BenchForm::Round& round) {
  std::size_t width = 0;
  for (const BenchForm::Column& column : round.columns)
    width += column.width + 1;
  return width - 1;
}

std::string rule(const BenchForm::Table& table) {
  std::string out(row_head_width, '-');
  for (const BenchForm::Round& round : table.rounds) {
    out += '+';
    for (const BenchForm::Column& column : round.columns)
      out += '+' + std::string(column.width, '-');
  }
  return out + "\n";
}

std::string cells(const BenchForm::Table& table, std::string_view head, bool is_heading) {
  std::string out = fmt::format("{:<{}}", head, row_head_width);
  for (const BenchForm::Round& round : table.rounds) {
    out += '|';
    for (const BenchForm::Column& column : round.columns)
      out +=
          '|' + (is_heading ? centred(column.head, column.width) : std::string(column.width, ' '));
  }
  return out + "\n";
}

std::string without_trailing_blanks(const std::string& text) {
  std::string out;
  for (const char c : text) {
    if (c == '\n') out.erase(out.find_last_not_of(' ') + 1);
    out += c;
  }
  return out;
}

std::string table_text(const BenchForm::Table& table, const Look& look) {
  std::string out = fold(table.title, look.width) + "\n";
  std::string titles(row_head_width, ' ');
  for (const BenchForm::Round& round : table.rounds)
    titles += "||" + centred(round.title, width_of_round(round));
  out += titles + "\n" + cells(table, "", true) + rule(table);
  // Room to write with a pencil in a cold shed: two lines each.
  for (const std::string& row : table.rows)
    out += cells(table, row, false) + cells(table, "", false) + rule(table);
  return out;
}

}  // namespace

std::string to_text(const BenchForm& form, const Look& look) {
  std::string out = fold(fmt::format("{}  ({})", form.title, form.family), look.width) + "\n";
  out += fmt::format("{}  {}  {}\n", blank("Engine", 24), blank("Date", 12), blank("By", 22));
  out += fmt::format("{}  {}  {}\n\n", blank("Gauge", 25), blank("zero on", 9), blank("Air", 10));
  for (const std::string& line : form.known)
    out += fold(line, look.width, "- ", "  ") + "\n";
  for (const std::string& caution : form.cautions)
    out += fold(caution, look.width, "CAUTION: ", "         ") + "\n";
  for (const BenchForm::Table& table : form.tables)
    out += "\n" + table_text(table, look);
  if (!form.questions.empty()) out += "\n";
  for (const std::string& question : form.questions)
    out +=
        fold(question, look.width, "[ ] yes  [ ] no  [ ] unsure   ", std::string(30, ' ')) + "\n";
  out += "\nLeft open: " + std::string(68, '_') + "\n";
  return plain(look, without_trailing_blanks(out));
}

}  // namespace soot
