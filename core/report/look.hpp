// How answers are to look: width, whether marks beyond ASCII and colour may be used. Colour never
// says anything that the words do not.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace soot {

struct Look {
  std::size_t width = 80;
  bool colour = false;
  bool utf8 = true;
};

/// 0.873 as "87 %"; small ones with their digits, "< 0.01 %" below that, never 0 or 100 unless
/// exact.
std::string percent(double probability);

/// A factor on odds: "x 12", "/ 3.5"; "x 1" when it says nothing.
std::string factor(double log_odds);

/// Minutes as a person says them: "25 min", "2 h 10".
std::string duration(double minutes);

std::string strong(const Look& look, std::string_view text);
std::string faint(const Look& look, std::string_view text);
/// Text between strike marks where the terminal can, with the word "struck" beside it anyway.
std::string struck(const Look& look, std::string_view text);

/// Replaces marks that a plain terminal lacks (dashes, degree and times signs) by ASCII.
std::string plain(const Look& look, std::string text);

}  // namespace soot
