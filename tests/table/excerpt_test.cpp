// The source line below a message, and the caret under the right character of it.
#include "core/base/text.hpp"
#include "core/table/reader.hpp"

#include <doctest/doctest.h>

#include <string>

namespace {

using soot::excerpt_of;

// The character above the caret.
std::string above_caret(const std::string& excerpt) {
  const std::vector<std::string> lines = soot::split(excerpt, '\n');
  REQUIRE(lines.size() == 2);
  const std::size_t column = lines[1].find('^');
  REQUIRE(column != std::string::npos);
  std::size_t at = 0, seen = 0;
  while (at < lines[0].size()) {
    if ((static_cast<unsigned char>(lines[0][at]) & 0xC0U) != 0x80U && seen++ == column) break;
    ++at;
  }
  return at < lines[0].size() ? lines[0].substr(at, 1) : "";
}

}  // namespace

TEST_CASE("a short line stands as it is") {
  CHECK(excerpt_of("one\ntwo = 3\nfour\n", 2, 7) == "  two = 3\n        ^");
  CHECK(excerpt_of("one\ntwo", 2, 1) == "  two\n  ^");
}

TEST_CASE("the end of the line can be pointed at") {
  CHECK(excerpt_of("ab\n", 1, 3) == "  ab\n    ^");
  CHECK(excerpt_of("ab\n", 1, 99) == "  ab\n    ^");
}

TEST_CASE("nothing is shown of a place that is not there or a line that is blank") {
  CHECK(excerpt_of("ab\n", 0, 1) == "");
  CHECK(excerpt_of("ab\n", 1, 0) == "");
  CHECK(excerpt_of("ab\n", 7, 1) == "");
  CHECK(excerpt_of("ab\n \t\ncd\n", 2, 1) == "");
}

TEST_CASE("a tab is one column wide here as it is in the count") {
  CHECK(excerpt_of("\tn\t= x\n", 1, 6) == "   n = x\n       ^");
  CHECK(above_caret(excerpt_of("\t\tkey\t=\tvalue", 1, 9)) == "v");
}

TEST_CASE("characters of several bytes are one column") {
  const std::string line = "t = \"\xC2\xB0\xC3\x9F\xE2\x82\xAC\" x";
  CHECK(excerpt_of(line, 1, 11) == "  " + line + "\n            ^");
  CHECK(above_caret(excerpt_of(line, 1, 11)) == "x");
}

TEST_CASE("the last character of a line is kept whatever bytes it has") {
  CHECK(excerpt_of("a \xC2\xB0", 1, 1) == "  a \xC2\xB0\n  ^");
}

TEST_CASE("a long line is cut round the caret") {
  for (const std::size_t at : {1U, 40U, 71U, 72U, 73U, 100U, 250U, 299U}) {
    std::string line(300, '-');
    line[at - 1] = 'X';
    const std::string excerpt = excerpt_of(line, 1, static_cast<int>(at));
    CAPTURE(at);
    CHECK(above_caret(excerpt) == "X");
    CHECK(soot::split(excerpt, '\n')[0].size() <= 74);
  }
}

TEST_CASE("a long line of many-byte characters is cut between characters") {
  std::string line;
  for (int i = 0; i < 150; ++i)
    line += "\xC2\xB0";
  line += "X";
  for (int i = 0; i < 150; ++i)
    line += "\xE2\x82\xAC";
  const std::string excerpt = excerpt_of(line, 1, 151);
  CHECK(above_caret(excerpt) == "X");
  CHECK(soot::width_of(soot::split(excerpt, '\n')[0]) == 74);
  CHECK(excerpt.find("\xAC\xC2") == std::string::npos);
}

TEST_CASE("nothing that a terminal would act on comes through") {
  CHECK(excerpt_of("a\x1b[31mb\x7f"
                   "c\xFF"
                   "d\r\n",
                   1, 1) == "  a [31mb c?d\n  ^");
}
