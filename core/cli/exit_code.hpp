// What the program tells its caller by number. An undecided ranking is an answer.
#pragma once

#include "core/base/problem.hpp"

namespace soot::cli {

inline constexpr int answered = 0;
inline constexpr int wrong_use = 2;  ///< the words on the command line, or a fact that cannot be
inline constexpr int bad_data = 3;   ///< a file: job, case, knowledge, family
inline constexpr int trouble = 4;    ///< plugin, ledger, disk
inline constexpr int internal_error = 70;

/// Of the first error.
inline int exit_code_of(const Problems& problems) {
  for (const Problem& problem : problems) {
    if (problem.severity != Severity::error) continue;
    switch (problem.kind) {
      case Kind::use:
        return wrong_use;
      case Kind::data:
        return bad_data;
      case Kind::trouble:
        return trouble;
    }
  }
  return internal_error;
}

}  // namespace soot::cli
