// Small services on words: the nearest known word to a misspelt one, folding to a width.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace soot {

/// Number of single-letter changes (insert, drop, replace, swap neighbours) from a to b.
std::size_t edit_distance(std::string_view a, std::string_view b);

/// The known word within two letters of `word` (one, if it has fewer than five letters), nearest
/// first; nothing if none is.
std::optional<std::string> nearest(std::string_view word, const std::vector<std::string>& known);

/// `", did you mean X?"` or nothing: to be hung on a message.
std::string did_you_mean(std::string_view word, const std::vector<std::string>& known);

std::string_view trim(std::string_view text);
std::vector<std::string> split(std::string_view text, char separator);

/// Number of characters (UTF-8 code points) in `text`.
std::size_t width_of(std::string_view text);

/// Folds at spaces to `width` characters; every line starts with `indent`, the first with `first`.
/// A word longer than a line stands alone on its line.
std::string fold(std::string_view text, std::size_t width, std::string_view first = "",
                 std::string_view indent = "");

}  // namespace soot
