// Rules of the house that a reader of one file cannot see broken: sizes, blanks, heads of headers,
// what stands at the top, names of tests.
#include "tests/house/tree.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <functional>
#include <set>
#include <string>
#include <vector>

namespace {

using soot::test::lines_of;
using soot::test::source_tree;
using soot::test::SourceFile;

bool ends_in(const SourceFile& file, const std::vector<std::string>& endings) {
  return std::any_of(endings.begin(), endings.end(),
                     [&](const std::string& ending) { return file.ends_with(ending); });
}

bool is_code(const SourceFile& file) {
  return ends_in(file, {".cpp", ".hpp", ".c", ".h", ".in", ".cmake", "CMakeLists.txt", ".sh"});
}

// Written by hand; numbers copied for tests are not.
bool is_written(const SourceFile& file) {
  return is_code(file) || ends_in(file, {".toml", ".md", "/run"});
}

bool is_header(const SourceFile& file) {
  return ends_in(file, {".hpp", ".h"});
}

void for_each(const std::function<bool(const SourceFile&)>& wanted,
              const std::function<void(const SourceFile&)>& look) {
  std::size_t seen = 0;
  for (const SourceFile& file : source_tree()) {
    if (!wanted(file)) continue;
    ++seen;
    look(file);
  }
  CHECK(seen > 20);
}

// The name in `TEST_CASE("name")`, if the line has one.
std::string test_name(const std::string& line) {
  const std::string start = std::string{"TEST_"} + "CASE(\"";
  const std::size_t at = line.find(start);
  if (at != 0) return {};
  return line.substr(start.size(), line.rfind('"') - start.size());
}

}  // namespace

TEST_CASE("no source has four hundred lines") {
  for_each(is_code, [](const SourceFile& file) {
    const std::size_t lines = lines_of(file.text).size();
    CHECK_MESSAGE(lines < 400, file.path, " has ", lines, " lines");
  });
}

TEST_CASE("no entry of the knowledge is lost in a long file") {
  for_each(
      [](const SourceFile& file) { return file.is_below("knowledge/") && file.ends_with(".toml"); },
      [](const SourceFile& file) {
        const std::size_t lines = lines_of(file.text).size();
        CHECK_MESSAGE(lines < 250, file.path, " has ", lines, " lines");
      });
}

TEST_CASE("no tabs and no trailing blanks and a newline at the end") {
  for_each(is_written, [](const SourceFile& file) {
    CHECK_MESSAGE(file.text.find('\t') == std::string::npos, file.path, " has a tab");
    CHECK_MESSAGE(file.text.find('\r') == std::string::npos, file.path, " has a carriage return");
    CHECK_MESSAGE((file.text.empty() || file.text.back() == '\n'), file.path,
                  " does not end with a newline");
    CHECK_MESSAGE(!file.text.ends_with("\n\n"), file.path, " ends with an empty line");
    std::size_t number = 0;
    for (const std::string& line : lines_of(file.text)) {
      ++number;
      CHECK_MESSAGE(!line.ends_with(' '), file.path, ":", number, " ends with a blank");
    }
  });
}

TEST_CASE("a header begins by saying why it exists") {
  for_each(is_header, [](const SourceFile& file) {
    const bool begins = file.text.starts_with("// ") || file.text.starts_with("/* ");
    CHECK_MESSAGE(begins, file.path, " does not begin with a comment");
    CHECK_MESSAGE(file.text.find("\n#pragma once\n") != std::string::npos, file.path,
                  " lacks pragma once");
  });
}

TEST_CASE("nothing is left to be done later") {
  const std::vector<std::string> words{std::string{"TO"} + "DO", std::string{"FIX"} + "ME"};
  for_each(is_written, [&](const SourceFile& file) {
    for (const std::string& word : words)
      CHECK_MESSAGE(file.text.find(word) == std::string::npos, file.path, " has a ", word);
  });
}

TEST_CASE("the top of the tree holds what is meant to be there and nothing else") {
  const std::set<std::string> meant{"CMakeLists.txt", "README.md", "DEVELOPERS.md", "core",
                                    "plugins",        "knowledge", "tests",         "cases"};
  std::set<std::string> found;
  for (const std::string& name : soot::test::top_level())
    if (!name.starts_with('.') && !name.starts_with("build")) found.insert(name);
  for (const std::string& name : meant)
    CHECK_MESSAGE(found.contains(name), name, " is missing");
  for (const std::string& name : found)
    CHECK_MESSAGE(meant.contains(name), name, " does not belong there");
}

TEST_CASE("only tests know of the folder beside the project") {
  const std::string folder = std::string{"sha"} + "red/";
  for_each([](const SourceFile& file) { return !file.is_below("tests/"); },
           [&](const SourceFile& file) {
             CHECK_MESSAGE(file.text.find(folder) == std::string::npos, file.path, " names it");
           });
}

TEST_CASE("names of tests are letters and digits and spaces and hyphens") {
  const std::string good = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789 -";
  std::size_t tests = 0;
  for_each([](const SourceFile& file) { return file.is_below("tests/") && is_code(file); },
           [&](const SourceFile& file) {
             for (const std::string& line : lines_of(file.text)) {
               const std::string name = test_name(line);
               if (name.empty()) continue;
               ++tests;
               CHECK_MESSAGE(name.find_first_not_of(good) == std::string::npos, file.path, ": ",
                             name);
             }
           });
  CHECK(tests > 100);
}
