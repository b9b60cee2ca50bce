// A plugin started from the template, and how much C++ that asks of an author.
#include "core/host/new_plugin.hpp"

#include "core/host/manifest.hpp"
#include "tests/host/scratch.hpp"

#include <doctest/doctest.h>

#include <sstream>

namespace soot::host {

namespace fs = std::filesystem;
using test::Scratch;

namespace {
const std::string templates = source_dir() + "/core/sdk/template";

std::string whole(const fs::path& file) {
  std::ostringstream text;
  text << std::ifstream(file).rdbuf();
  return text.str();
}

/// Lines that are neither empty nor comment alone.
int lines_of_code(const fs::path& file) {
  std::istringstream lines(whole(file));
  int count = 0;
  for (std::string line; std::getline(lines, line);) {
    const std::size_t begin = line.find_first_not_of(' ');
    if (begin != std::string::npos && line.compare(begin, 2, "//") != 0) ++count;
  }
  return count;
}
}  // namespace

TEST_CASE("a new plugin is the template under its own name") {
  const Scratch scratch("new-plugin");
  for (const char* kind : {"compiled", "tabular"}) {
    const fs::path from = fs::path(templates) / kind;
    const std::string id = std::string(kind) + "-winch";
    CHECK(new_plugin(from, scratch.path(), id).value() == scratch.path() / id);
    CHECK(fs::exists(scratch.path() / id / "families" / (id + "-1.toml")));
    const Manifest manifest = read_manifest(scratch.path() / id).value();
    CHECK(manifest.id == id);
    CHECK(manifest.is_text() == (std::string(kind) == "tabular"));
    for (const auto& entry : fs::recursive_directory_iterator(scratch.path() / id))
      if (entry.is_regular_file())
        CHECK(whole(entry.path()).find(template_word) == std::string::npos);
  }
}

TEST_CASE("a new plugin does not take the place of anything") {
  const Scratch scratch("new-plugin-twice");
  const fs::path from = fs::path(templates) / "tabular";
  scratch.write("winch", "a file of that name");
  const auto told = [&](const fs::path& source, const std::string& id) {
    const auto made = new_plugin(source, scratch.path(), id);
    return made ? "" : soot::to_string(made.error());
  };
  CHECK(told(from, "winch") ==
        (scratch.path() / "winch").string() + " is there already (expected a new name)");
  CHECK(told(from, "../winch") ==
        "'../winch' is no name (expected small letters, digits and hyphens)");
  CHECK(told(scratch.path() / "gone", "other") ==
        (scratch.path() / "gone").string() +
            ": the template is not there (expected it where the program came from)");
}

TEST_CASE("a compiled family needs few lines of code beyond its table") {
  const int lines = lines_of_code(fs::path(templates) / "compiled/my-engine.cpp");
  MESSAGE("figure compiled-family-lines ", lines);
  CHECK(lines > 5);
  CHECK(lines <= 40);
}

}  // namespace soot::host
