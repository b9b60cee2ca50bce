#include "tests/judges/csv_rows.hpp"

#include <algorithm>
#include <csv.h>
#include <fstream>
#include <sstream>

namespace soot::judges {
namespace {

using Cells = std::vector<std::vector<std::string>>;

struct Sheet {
  Cells rows;
  std::vector<std::string> open;
};

void take_cell(void* text, std::size_t length, void* sheet) {
  static_cast<Sheet*>(sheet)->open.emplace_back(static_cast<const char*>(text), length);
}

void end_row(int, void* data) {
  Sheet& sheet = *static_cast<Sheet*>(data);
  sheet.rows.push_back(std::move(sheet.open));
  sheet.open.clear();
}

Problem at(const std::filesystem::path& path, std::size_t row, std::string words) {
  Problem problem = make_problem(Kind::data, "{}", words);
  problem.place.file = path.string();
  problem.place.line = static_cast<int>(row);
  return problem;
}

Result<Cells> parse(const std::filesystem::path& path, const std::string& text) {
  csv_parser parser;
  if (csv_init(&parser, CSV_STRICT | CSV_STRICT_FINI) != 0)
    return fail(Kind::trouble, "the reader of comma-separated files did not start");
  Sheet sheet;
  const bool read =
      csv_parse(&parser, text.data(), text.size(), take_cell, end_row, &sheet) == text.size() &&
      csv_fini(&parser, take_cell, end_row, &sheet) == 0;
  csv_free(&parser);
  if (!read)
    return tl::unexpected(
        Problems{at(path, sheet.rows.size() + 1, "a quote is in the wrong place")});
  return std::move(sheet.rows);
}

}  // namespace

Result<std::vector<Row>> read_rows(const std::filesystem::path& path,
                                   const std::vector<std::string>& wanted) {
  std::ifstream in(path, std::ios::binary);
  if (!in) return tl::unexpected(Problems{at(path, 0, "cannot be read")});
  std::ostringstream text;
  text << in.rdbuf();
  Result<Cells> cells = parse(path, text.str());
  if (!cells) return pass_on(cells);
  if (cells->empty()) return tl::unexpected(Problems{at(path, 0, "is empty")});
  const std::vector<std::string>& head = cells->front();
  Problems problems;
  for (const std::string& column : wanted)
    if (std::find(head.begin(), head.end(), column) == head.end())
      problems.push_back(at(path, 1, "has no column " + column));
  std::vector<Row> rows;
  for (std::size_t r = 1; r < cells->size(); ++r) {
    const std::vector<std::string>& line = (*cells)[r];
    if (line.size() != head.size()) {
      problems.push_back(
          at(path, r + 1, fmt::format("has {} cells (expected {})", line.size(), head.size())));
      continue;
    }
    Row& row = rows.emplace_back();
    for (std::size_t c = 0; c < head.size(); ++c)
      row[head[c]] = line[c];
  }
  if (!problems.empty()) return tl::unexpected(std::move(problems));
  return rows;
}

}  // namespace soot::judges
