// The words of the command line: the only place that knows how commands and options are spelt.
#pragma once

#include "core/cli/request.hpp"

#include <optional>
#include <string>
#include <vector>

namespace soot::cli {

/// What the words came to: something to do, or text to print and an exit code (help, version, or
/// what is wrong with the words).
struct Parsed {
  std::optional<Request> request;
  std::vector<std::string> plugin_path;  ///< --plugin-path, in order of precedence
  std::string text;
  bool is_complaint = false;  ///< text belongs on standard error
  int exit_code = 0;
};

/// `arguments` without the program's name.
Parsed parse(const std::vector<std::string>& arguments);

}  // namespace soot::cli
