// Words that come from a plugin, made fit for a message or refused: foreign text may be anything.
#pragma once

#include <string>
#include <string_view>

namespace soot::host {

/// Whether a word is an id: small letters, digits and single hyphens, beginning with a letter, at
/// most 60 long.
bool is_id(std::string_view word);

/// One line of UTF-8 of at most 300 bytes: control characters become blanks, what is not UTF-8
/// becomes question marks, NULL becomes "".
std::string tidy(const char* text);

}  // namespace soot::host
