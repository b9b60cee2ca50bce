#include "core/base/text.hpp"

#include <doctest/doctest.h>

TEST_CASE("edit distance counts single letters and swapped neighbours") {
  // The two standard examples of the literature (from memory): 3 and, with swaps restricted to
  // untouched neighbours, 3.
  CHECK(soot::edit_distance("kitten", "sitting") == 3);
  CHECK(soot::edit_distance("ca", "abc") == 3);
  CHECK(soot::edit_distance("depht", "depth") == 1);
  CHECK(soot::edit_distance("", "abc") == 3);
  CHECK(soot::edit_distance("abc", "") == 3);
  CHECK(soot::edit_distance("same", "same") == 0);
}

TEST_CASE("edit distance is the same from either side") {
  const std::vector<std::string> words{"", "lifter", "filter", "lifetr", "gear", "rage"};
  for (const auto& a : words)
    for (const auto& b : words)
      CHECK(soot::edit_distance(a, b) == soot::edit_distance(b, a));
}

TEST_CASE("the nearest word is offered within two letters") {
  const std::vector<std::string> known{"lifter-depth", "spill-angle", "bar"};
  CHECK(soot::nearest("lifter-dept", known) == "lifter-depth");
  CHECK(soot::nearest("lifer-dept", known) == "lifter-depth");
  CHECK_FALSE(soot::nearest("lifer-dep", known));
  CHECK(soot::nearest("bra", known) == "bar");
  // Short words allow one letter only.
  CHECK_FALSE(soot::nearest("brx", known));
  CHECK(soot::did_you_mean("spil-angle", known) == ", did you mean spill-angle?");
  CHECK(soot::did_you_mean("governor", known).empty());
}

TEST_CASE("trim and split") {
  CHECK(soot::trim(" \t a b\r\n") == "a b");
  CHECK(soot::trim("  ").empty());
  CHECK(soot::split("1-3-4-2", '-') == std::vector<std::string>{"1", "3", "4", "2"});
  CHECK(soot::split("", ',') == std::vector<std::string>{""});
  CHECK(soot::split("a,", ',') == std::vector<std::string>{"a", ""});
}

TEST_CASE("width counts characters and not bytes") {
  CHECK(soot::width_of("abc") == 3);
  CHECK(soot::width_of("\xC2\xB0"
                       "C") == 2);
}

TEST_CASE("fold breaks at spaces and indents") {
  CHECK(soot::fold("one two three", 7) == "one two\nthree");
  CHECK(soot::fold("one two three", 9, "- ", "  ") == "- one two\n  three");
  CHECK(soot::fold("a   b", 80) == "a b");
  CHECK(soot::fold("", 80) == "");
  // A word longer than a line stands alone on it.
  CHECK(soot::fold("a incomprehensible b", 6) == "a\nincomprehensible\nb");
  // Two bytes of one degree sign are one column.
  CHECK(soot::fold("24 \xC2\xB0"
                   "C x",
                   5) ==
        "24 \xC2\xB0"
        "C\nx");
}

TEST_CASE("fold keeps a percent sign with its number") {
  CHECK(soot::fold("a little 0.8 %, much 7 %", 14) == "a little\n0.8 %, much\n7 %");
}

TEST_CASE("fold keeps paragraphs") {
  CHECK(soot::fold("one\ntwo", 80) == "one\ntwo");
}

TEST_CASE("no folded line is too wide unless it is one word") {
  const std::string text = "set to 29.24 mm with the jam nut slack, to read 29.20 mm tight";
  for (std::size_t width = 10; width < 40; ++width)
    for (const std::string& line : soot::split(soot::fold(text, width, "* ", "  "), '\n'))
      CHECK(soot::width_of(line) <= width);
}
