#include "core/host/plugin_text.hpp"

#include "core/base/text.hpp"

#include <algorithm>
#include <cstddef>
#include <cstring>

namespace soot::host {

namespace {
bool is_tail(char c) {
  return (static_cast<unsigned char>(c) & 0xC0U) == 0x80U;
}

/// Bytes of the character at the beginning of `text`, 0 if it is none.
std::size_t character_size(std::string_view text) {
  const auto lead = static_cast<unsigned char>(text.front());
  const std::size_t size = lead < 0x80U                    ? 1
                           : lead >= 0xC2U && lead < 0xE0U ? 2
                           : lead >= 0xE0U && lead < 0xF0U ? 3
                           : lead >= 0xF0U && lead < 0xF5U ? 4
                                                           : 0;
  if (size > text.size()) return 0;
  const std::string_view tail = text.substr(std::min<std::size_t>(size, 1), size - (size > 0));
  return std::all_of(tail.begin(), tail.end(), is_tail) ? size : 0;
}
}  // namespace

bool is_id(std::string_view word) {
  constexpr std::size_t longest = 60;
  const auto is_small = [](char c) { return c >= 'a' && c <= 'z'; };
  const auto is_digit = [](char c) { return c >= '0' && c <= '9'; };
  if (word.empty() || word.size() > longest || !is_small(word.front()) || word.back() == '-')
    return false;
  return word.find("--") == std::string_view::npos &&
         std::all_of(word.begin(), word.end(),
                     [&](char c) { return is_small(c) || is_digit(c) || c == '-'; });
}

std::string tidy(const char* text) {
  constexpr std::size_t longest = 300;
  if (text == nullptr) return "";
  const std::string_view all(text, strnlen(text, longest));
  std::string line;
  for (std::size_t at = 0; at < all.size();) {
    const std::size_t size = character_size(all.substr(at));
    const auto byte = static_cast<unsigned char>(all[at]);
    if (size > 1)
      line += all.substr(at, size);
    else if (size == 1)
      line += byte < 0x20U || byte == 0x7FU ? ' ' : all[at];
    else if (all.size() < longest || at + 3 < longest)  // else a character that the cut halved
      line += '?';
    at += std::max<std::size_t>(size, 1);
  }
  return std::string(trim(line));
}

}  // namespace soot::host
