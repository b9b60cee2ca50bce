#include "core/table/text_check.hpp"

#include <fmt/format.h>

namespace soot {
namespace {

// Tables nest 256 deep at most by brackets; each may be a dotted key.
constexpr int most_parts_of_a_key = 32;

unsigned byte_at(std::string_view text, std::size_t i) {
  return static_cast<unsigned char>(text[i]);
}

bool ends_a_key(char c) {
  switch (c) {
    case '=':
    case ',':
    case '[':
    case ']':
    case '{':
    case '}':
    case '#':
    case '\n':
      return true;
    default:
      return false;
  }
}

}  // namespace

std::size_t utf8_length(std::string_view text) {
  if (text.empty()) return 0;
  const unsigned first = byte_at(text, 0);
  if (first < 0x80) return 1;
  const std::size_t length = first >= 0xF0 ? 4 : first >= 0xE0 ? 3 : 2;
  if (first < 0xC2 || first > 0xF4 || text.size() < length) return 0;
  for (std::size_t i = 1; i < length; ++i)
    if ((byte_at(text, i) & 0xC0U) != 0x80U) return 0;
  const unsigned second = byte_at(text, 1);
  const bool overlong = (first == 0xE0 && second < 0xA0) || (first == 0xF0 && second < 0x90);
  const bool beyond = (first == 0xED && second >= 0xA0) || (first == 0xF4 && second >= 0x90);
  return overlong || beyond ? 0 : length;
}

std::optional<TextFault> text_fault(std::string_view text) {
  constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
  int line = 1, column = 0, parts = 1;
  std::size_t i = text.substr(0, 3) == byte_order_mark ? byte_order_mark.size() : 0;
  while (i < text.size()) {
    const std::size_t length = byte_at(text, i) < 0x80 ? 1 : utf8_length(text.substr(i));
    ++column;
    if (length == 0)
      return TextFault{line, column,
                       fmt::format("byte 0x{:02X} is not UTF-8 (expected a text saved as UTF-8)",
                                   byte_at(text, i))};
    if (text[i] == '\0')
      return TextFault{line, column, "a NUL byte (expected a text, saved as UTF-8)"};
    if (text[i] == '.') ++parts;
    if (ends_a_key(text[i])) parts = 1;
    if (parts > most_parts_of_a_key)
      return TextFault{line, column,
                       fmt::format("more than {} words joined by dots (expected a key of few "
                                   "parts, as a.b)",
                                   most_parts_of_a_key)};
    if (text[i] == '\n') {
      ++line;
      column = 0;
    }
    i += length;
  }
  return std::nullopt;
}

}  // namespace soot
