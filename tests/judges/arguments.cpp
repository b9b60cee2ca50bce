#include "tests/judges/arguments.hpp"

#include <fmt/format.h>

#include <cstdio>

namespace soot::judges {

Result<std::map<std::string, std::string>> read_arguments(
    const std::vector<std::string>& words, const std::map<std::string, std::string>& known) {
  std::map<std::string, std::string> given = known;
  for (std::size_t i = 0; i < words.size(); i += 2) {
    const std::string name = words[i].starts_with("--") ? words[i].substr(2) : "";
    if (!known.contains(name)) return fail(Kind::use, "'{}' is not known here", words[i]);
    if (i + 1 == words.size()) return fail(Kind::use, "{} wants a value", words[i]);
    given[name] = words[i + 1];
  }
  for (const auto& [name, value] : given)
    if (value.empty()) return fail(Kind::use, "--{} is missing", name);
  return given;
}

int complain(const Problems& problems) {
  fmt::print(stderr, "{}\n", to_string(problems));
  return 1;
}

}  // namespace soot::judges
