// The person's side of a run: where answers go, where talk goes, whether there is anybody to ask.
// A seam, so that tests can listen.
#pragma once

#include "core/base/problem.hpp"
#include "core/report/look.hpp"

#include <functional>
#include <optional>
#include <string>
#include <string_view>

namespace soot::cli {

struct Terminal {
  std::function<void(std::string_view)> answer;  ///< standard output, text with its line ends
  std::function<void(std::string_view)> talk;    ///< standard error
  /// Asks one question and waits for a line; nothing if nobody is there to answer.
  std::function<std::optional<std::string>(std::string_view)> ask;
  Look look;
};

/// The process's own streams. Colour only on a terminal, without NO_COLOR and unless TERM is dumb;
/// marks beyond ASCII only if the locale says UTF-8; a question only if both input and talk are a
/// terminal.
Terminal process_terminal();

/// Says what is wrong in the talk, folded to the width; a source line with its caret stays as it
/// is.
void complain(const Terminal& terminal, const Problem& problem);

}  // namespace soot::cli
