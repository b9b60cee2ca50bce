#include "core/table/reader.hpp"
#include "core/table/text_check.hpp"

#include <algorithm>
#include <vector>

namespace soot {
namespace {

constexpr std::size_t excerpt_width = 72;

std::string_view line_of(std::string_view text, int line) {
  std::size_t begin = 0;
  for (int n = 1; n < line; ++n) {
    begin = text.find('\n', begin);
    if (begin == std::string_view::npos) return {};
    ++begin;
  }
  return text.substr(begin, text.find('\n', begin) - begin);
}

// One entry a column. What a terminal would act on, or could not show, is replaced.
std::vector<std::string> characters_of(std::string_view line) {
  std::vector<std::string> out;
  while (!line.empty()) {
    const std::size_t length = std::max<std::size_t>(utf8_length(line), 1);
    const auto first = static_cast<unsigned char>(line.front());
    if (first < 0x20 || first == 0x7f) {
      out.emplace_back(" ");
    } else if (length == 1 && first >= 0x80) {
      out.emplace_back("?");
    } else {
      out.emplace_back(line.substr(0, length));
    }
    line.remove_prefix(length);
  }
  return out;
}

}  // namespace

std::string excerpt_of(std::string_view text, int line, int column) {
  if (line < 1 || column < 1) return {};
  if (text.substr(0, 3) == "\xEF\xBB\xBF") text.remove_prefix(3);
  const std::vector<std::string> characters = characters_of(line_of(text, line));
  const bool blank = std::all_of(characters.begin(), characters.end(),
                                 [](const std::string& c) { return c == " "; });
  if (blank) return {};
  const std::size_t caret = std::min(static_cast<std::size_t>(column - 1), characters.size());
  // A caret beyond the cut line would point at nothing: move the window along the line instead.
  const std::size_t from = caret < excerpt_width ? 0 : caret - excerpt_width / 2;
  std::string source;
  for (std::size_t i = from; i < std::min(from + excerpt_width, characters.size()); ++i)
    source += characters[i];
  source.erase(source.find_last_not_of(' ') + 1);
  return "  " + source + "\n  " + std::string(caret - from, ' ') + "^";
}

}  // namespace soot
