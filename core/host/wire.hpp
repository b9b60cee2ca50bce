// What the child that tries a plugin says to its parent: one line a fact, written at once, so that
// a line is all that is needed to know how far it came.
#pragma once

#include "core/base/problem.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace soot::host {

struct Word {
  enum Kind { step, named, family, problem, done };
  Kind kind = step;
  std::string text;     ///< step: what is done next; named: id; family: id
  std::string version;  ///< named
  Problem what;         ///< problem
};

/// One line, ending in a newline.
std::string encode(const Word& word);

/// Takes whole lines off the front of `bytes` and leaves the rest. What is no line of ours is
/// dropped: a plugin may have written there.
std::vector<Word> decode(std::string& bytes);

}  // namespace soot::host
