// What a Reader says of keys that are missing, of the wrong type, unknown or without their unit: to
// the letter, with line, column and the source line.
#include "core/table/reader.hpp"

#include <doctest/doctest.h>

#include <functional>
#include <string>

namespace {

using soot::Dimension;
using soot::Document;
using soot::Reader;

// The complaints after `ask` has asked the text's root table for what it wants.
std::string complaints(const std::string& text, const std::function<void(Reader&)>& ask) {
  soot::Result<Document> document = Document::parse("a.toml", text);
  REQUIRE_MESSAGE(document, (document ? "" : to_string(document.error())));
  Reader root = document->root();
  ask(root);
  return to_string(document->problems());
}

}  // namespace

TEST_CASE("a needed text that is missing or empty") {
  const auto ask = [](Reader& root) { CHECK(root.needed_text("name") == ""); };
  CHECK(complaints("", ask) == "a.toml:1:1: name is missing (expected a text)");
  CHECK(complaints("name = \" \"\n", [](Reader& root) { (void)root.needed_text("name"); }) ==
        "a.toml:1:8: name is empty\n"
        "  name = \" \"\n"
        "         ^");
}

TEST_CASE("what is missing in a table is told at the table") {
  const auto ask = [](Reader& root) {
    for (Reader& entry : root.tables("cause"))
      (void)entry.needed_text("id");
  };
  CHECK(complaints("[[cause]]\nid = \"a\"\n\n[[cause]]\nname = \"b\"\n", ask) ==
        "a.toml:4:1: id is missing (expected a text)\n"
        "  [[cause]]\n"
        "  ^");
}

TEST_CASE("a value of the wrong type is named with what was expected") {
  const auto text = [](Reader& root) { CHECK_FALSE(root.text("k")); };
  CHECK(complaints("k = 3\n", text) ==
        "a.toml:1:5: k is a whole number (expected a text in quotes)\n  k = 3\n      ^");
  CHECK(complaints("k = true\n", text) ==
        "a.toml:1:5: k is true or false (expected a text in quotes)\n  k = true\n      ^");
  CHECK(complaints("k = 2031-04-02\n", text) ==
        "a.toml:1:5: k is a date or time (expected a text in quotes)\n  k = 2031-04-02\n      ^");
  CHECK(complaints("k = \"3\"\n", [](Reader& root) { CHECK_FALSE(root.number("k")); }) ==
        "a.toml:1:5: k is a text (expected a number)\n  k = \"3\"\n      ^");
  CHECK(complaints("k = 1.5\n", [](Reader& root) { CHECK_FALSE(root.integer("k")); }) ==
        "a.toml:1:5: k is a number (expected a whole number)\n  k = 1.5\n      ^");
  CHECK(complaints("k = 1\n", [](Reader& root) { CHECK_FALSE(root.boolean("k")); }) ==
        "a.toml:1:5: k is a whole number (expected true or false)\n  k = 1\n      ^");
  CHECK(complaints("k = [1]\n", [](Reader& root) { CHECK_FALSE(root.table("k")); }) ==
        "a.toml:1:5: k is a list (expected a table)\n  k = [1]\n      ^");
}

TEST_CASE("a wrong entry of a list is told where it stands") {
  CHECK(complaints("k = [\"a\", 2]\n", [](Reader& root) { CHECK(root.texts("k").size() == 1); }) ==
        "a.toml:1:11: an entry of k is a whole number (expected a text in quotes)\n"
        "  k = [\"a\", 2]\n"
        "            ^");
  CHECK(complaints("k = [1, 2.5]\n", [](Reader& root) { CHECK(root.integers("k").size() == 1); }) ==
        "a.toml:1:9: an entry of k is a number (expected a whole number)\n"
        "  k = [1, 2.5]\n"
        "          ^");
  CHECK(complaints("k = [1]\n", [](Reader& root) { CHECK(root.tables("k").empty()); }) ==
        "a.toml:1:6: an entry of k is a whole number (expected a text or a table)\n"
        "  k = [1]\n"
        "       ^");
  CHECK(complaints("k = [\"a\"]\n", [](Reader& root) { CHECK(root.tables("k").empty()); }) ==
        "a.toml:1:5: an entry of k is a text (expected a table)\n"
        "  k = [\"a\"]\n"
        "      ^");
}

TEST_CASE("single brackets where double ones belong") {
  CHECK(complaints("[cause]\nid = \"a\"\n",
                   [](Reader& root) { CHECK(root.tables("cause").empty()); }) ==
        "a.toml:1:1: cause is a table (expected a list of them: [[cause]])\n"
        "  [cause]\n"
        "  ^");
}

TEST_CASE("an unknown key gets the nearest that was asked for") {
  const auto ask = [](Reader& root) {
    (void)root.text("source");
    (void)root.text("name");
    root.done();
  };
  CHECK(complaints("name = \"x\"\nsuorce = \"y\"\n", ask) ==
        "a.toml:2:1: suorce is no key known here, did you mean source?\n"
        "  suorce = \"y\"\n"
        "  ^");
  CHECK(complaints("weight = 3\n", ask) ==
        "a.toml:1:1: weight is no key known here\n"
        "  weight = 3\n"
        "  ^");
  CHECK(complaints("name = \"x\"\n", ask) == "");
}

TEST_CASE("a number must be finite") {
  const auto ask = [](Reader& root) { CHECK_FALSE(root.number("k")); };
  CHECK(complaints("k = inf\n", ask) == "a.toml:1:5: k is not a finite number\n  k = inf\n      ^");
  CHECK(complaints("k = nan\n", ask) == "a.toml:1:5: k is not a finite number\n  k = nan\n      ^");
}

TEST_CASE("whole numbers of any length are numbers") {
  const auto value_of = [](const std::string& text) {
    soot::Result<Document> document = Document::parse("a.toml", text);
    REQUIRE(document);
    return document->root().number("k");
  };
  CHECK(value_of("k = 3\n") == 3.0);
  CHECK(value_of("k = 9007199254740993\n") == 9007199254740992.0);  // no double lies at the odd one
}

TEST_CASE("a measure is told with its key") {
  const auto ask = [](Reader& root) { CHECK_FALSE(root.measure("depth", Dimension::length)); };
  const std::string under = "\n          ^";
  CHECK(complaints("depth = \"29.41\"\n", ask) ==
        "a.toml:1:9: depth: '29.41' has no unit (expected a length in mm, in, thou, um, cm, m, ft)"
        "\n  depth = \"29.41\"" +
            under);
  CHECK(complaints("depth = \"3 bar\"\n", ask) ==
        "a.toml:1:9: depth: '3 bar' is a pressure (expected a length in mm, in, thou, um, cm, m, "
        "ft)\n  depth = \"3 bar\"" +
            under);
  CHECK(complaints("depth = \"29,41 mm\"\n", ask) ==
        "a.toml:1:9: depth: '29,41 mm' has a decimal comma (expected a point, as 29.41 mm)\n"
        "  depth = \"29,41 mm\"" +
            under);
  CHECK(complaints("depth = \"29.41 mn\"\n", ask) ==
        "a.toml:1:9: depth: 'mn' is no unit known here, did you mean mm?\n"
        "  depth = \"29.41 mn\"" +
            under);
  CHECK(complaints("depth = \"1e400 mm\"\n", ask) ==
        "a.toml:1:9: depth: '1e400 mm' is too large or too small a number\n"
        "  depth = \"1e400 mm\"" +
            under);
  CHECK(complaints("depth = 29.41\n", ask) ==
        "a.toml:1:9: depth is a number (expected a text in quotes)\n  depth = 29.41" + under);
}

TEST_CASE("good values come out as they stand") {
  soot::Result<Document> document = Document::parse("a.toml",
                                                    "t = \"x\"\nn = 1.5\ni = 3\nb = true\n"
                                                    "l = [\"a\", \"b\"]\nm = \">20 bar\"\n");
  REQUIRE(document);
  Reader root = document->root();
  CHECK(root.text("t") == "x");
  CHECK(root.number("n") == 1.5);
  CHECK(root.integer("i") == 3);
  CHECK(root.boolean("b") == true);
  CHECK(root.texts("l") == std::vector<std::string>{"a", "b"});
  CHECK(root.measure("m", Dimension::pressure)->bound == soot::Bound::above);
  CHECK_FALSE(root.text("left-out"));
  CHECK(root.keys() == std::vector<std::string>{"b", "i", "l", "m", "n", "t"});
  root.done();
  CHECK(document->problems().empty());
}

TEST_CASE("after twenty complaints the rest is counted") {
  const auto complaints_of = [](int keys) {
    std::string text;
    for (int i = 0; i < keys; ++i)
      text += fmt::format("odd-{} = {}\n", i, i);
    soot::Result<Document> document = Document::parse("a.toml", text);
    REQUIRE(document);
    document->root().done();
    return document->problems();
  };
  CHECK(complaints_of(20).size() == 20);
  const soot::Problems all = complaints_of(45);
  REQUIRE(all.size() == 21);
  CHECK(to_string(all.back()) == "a.toml: and 25 more like these");
  CHECK(soot::has_errors(all));
}
