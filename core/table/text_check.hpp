// What is looked for in a text before it is parsed: that it is UTF-8 at all, and that no key has so
// many parts that the parser's tree of it would overrun the stack when it is taken down.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace soot {

/// Bytes of the UTF-8 character that begins `text`; 0 if none does (wrong or cut off, an overlong
/// form, half a surrogate pair).
std::size_t utf8_length(std::string_view text);

struct TextFault {
  int line = 0;
  int column = 0;  ///< in characters, as the parser counts
  std::string words;
};

/// The first fault of the text, or nothing.
std::optional<TextFault> text_fault(std::string_view text);

}  // namespace soot
