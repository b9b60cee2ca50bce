#include "core/cli/terminal.hpp"

#include "core/base/text.hpp"

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <iostream>
#include <unistd.h>

namespace soot::cli {
namespace {

std::string environment(const char* name) {
  const char* value = std::getenv(name);
  return value == nullptr ? std::string{} : std::string{value};
}

// The order in which the C library looks for the character set.
bool locale_is_utf8() {
  for (const char* name : {"LC_ALL", "LC_CTYPE", "LANG"}) {
    std::string value = environment(name);
    if (value.empty()) continue;
    std::transform(value.begin(), value.end(), value.begin(),
                   [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    return value.find("utf-8") != std::string::npos || value.find("utf8") != std::string::npos;
  }
  return false;
}

void write_to(std::FILE* stream, std::string_view text) {
  std::fwrite(text.data(), 1, text.size(), stream);
  std::fflush(stream);
}

}  // namespace

Terminal process_terminal() {
  Terminal terminal;
  terminal.answer = [](std::string_view text) { write_to(stdout, text); };
  terminal.talk = [](std::string_view text) { write_to(stderr, text); };
  const bool somebody_is_there = isatty(STDIN_FILENO) != 0 && isatty(STDERR_FILENO) != 0;
  terminal.ask = [somebody_is_there](std::string_view question) -> std::optional<std::string> {
    if (!somebody_is_there) return std::nullopt;
    write_to(stderr, question);
    std::string line;
    if (!std::getline(std::cin, line)) return std::nullopt;
    return line;
  };
  terminal.look.colour = isatty(STDOUT_FILENO) != 0 && environment("NO_COLOR").empty() &&
                         environment("TERM") != "dumb";
  terminal.look.utf8 = locale_is_utf8();
  return terminal;
}

void complain(const Terminal& terminal, const Problem& problem) {
  Problem words = problem;
  words.excerpt.clear();
  std::string text = fold("sootsayer: " + to_string(words), terminal.look.width, "", "  ") + "\n";
  if (!problem.excerpt.empty()) text += problem.excerpt + "\n";
  terminal.talk(text);
}

}  // namespace soot::cli
