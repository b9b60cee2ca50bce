// Texts that are no TOML, no text or no file at all: one sentence each, with its place.
#include "core/table/reader.hpp"

#include <doctest/doctest.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <stdexcept>
#include <string>

namespace {

using soot::Document;

std::string refusal(const std::string& text) {
  const soot::Result<Document> document = Document::parse("a.toml", text);
  if (document) return "taken";
  CHECK(document.error().front().kind == soot::Kind::data);
  return to_string(document.error());
}

// A folder of its own for one test, gone when it ends.
class Scratch {
 public:
  Scratch() {
    std::string pattern = (std::filesystem::temp_directory_path() / "table-test-XXXXXX").string();
    if (mkdtemp(pattern.data()) == nullptr) throw std::runtime_error("no temporary folder");
    path_ = pattern;
  }
  Scratch(const Scratch&) = delete;
  Scratch& operator=(const Scratch&) = delete;
  ~Scratch() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
  }
  std::filesystem::path write(const std::string& name, const std::string& text) const {
    const std::filesystem::path file = path_ / name;
    std::ofstream(file, std::ios::binary) << text;
    return file;
  }
  const std::filesystem::path& path() const { return path_; }

 private:
  std::filesystem::path path_;
};

}  // namespace

TEST_CASE("a key or a table given twice") {
  CHECK(refusal("n = 1\nn = 2\n") ==
        "a.toml:2:5: not TOML: cannot redefine existing integer 'n' (in: key-value pair)\n"
        "  n = 2\n"
        "      ^");
  CHECK(refusal("[a]\nx = 1\n\n[a]\ny = 2\n") ==
        "a.toml:4:1: not TOML: cannot redefine existing table 'a' (in: table header)\n"
        "  [a]\n"
        "  ^");
}

// The parser's headers assert here when they are compiled in; the packaged library tells it.
TEST_CASE("a table header that begins with no letter is told") {
  CHECK(refusal("[.a]\n") ==
        "a.toml:1:2: not TOML: expected bare key starting character or string delimiter, saw '.' "
        "(in: key)\n"
        "  [.a]\n"
        "   ^");
  CHECK(refusal("[\xC3\xA9]\n").find("a.toml:1:2: not TOML: expected bare key") == 0);
  CHECK(refusal("[[=]]\n").find("a.toml:1:3: not TOML: expected bare key") == 0);
}

TEST_CASE("tabs are blanks between words and allowed in a text") {
  CHECK(refusal("\tn\t=\t1\t\nt = \"a\tb\"\n") == "taken");
}

TEST_CASE("a tab inside a key is refused with the caret under what follows it") {
  CHECK(refusal("n\tx = 1\n") ==
        "a.toml:1:3: not TOML: expected '=', saw 'x' (in: key-value pair)\n"
        "  n x = 1\n"
        "    ^");
}

TEST_CASE("a byte order mark and the line ends of other systems are no matter") {
  soot::Result<Document> document = Document::parse("a.toml", "\xEF\xBB\xBFn = 1\r\nt = 2\r\n");
  REQUIRE(document);
  soot::Reader root = document->root();
  CHECK(root.number("n") == 1);
  CHECK_FALSE(root.text("t"));
  CHECK(to_string(document->problems()) ==
        "a.toml:2:5: t is a whole number (expected a text in quotes)\n  t = 2\n      ^");
}

TEST_CASE("a fault in the first line after a byte order mark stands under its caret") {
  CHECK(refusal("\xEF\xBB\xBFn = = 1\n") ==
        "a.toml:1:5: not TOML: could not determine value type (in: value)\n"
        "  n = = 1\n"
        "      ^");
}

TEST_CASE("what is not UTF-8 is told by its byte") {
  CHECK(refusal("# one\nt = \"Gr\xF6sse\"\n") ==
        "a.toml:2:8: byte 0xF6 is not UTF-8 (expected a text saved as UTF-8)\n"
        "  t = \"Gr?sse\"\n"
        "         ^");
  // Cut off, overlong, half a surrogate pair, beyond the last character.
  for (const std::string bytes :
       {"\xC3", "\xC0\xAF", "\xE0\x80\xAF", "\xED\xA0\x80", "\xF4\x90\x80\x80", "\xFF\xFE"}) {
    CAPTURE(bytes.size());
    CHECK(refusal("# " + bytes).find("is not UTF-8") != std::string::npos);
  }
  // The first and last characters of each length.
  for (const std::string good : {"\xC2\x80", "\xDF\xBF", "\xE0\xA0\x80", "\xED\x9F\xBF",
                                 "\xEE\x80\x80", "\xF0\x90\x80\x80", "\xF4\x8F\xBF\xBF"}) {
    CAPTURE(good.size());
    CHECK(refusal("t = \"" + good + "\"\n") == "taken");
  }
}

TEST_CASE("NUL bytes") {
  using namespace std::string_literals;
  CHECK(refusal("t = \"a\0b\"\n"s) ==
        "a.toml:1:7: a NUL byte (expected a text, saved as UTF-8)\n"
        "  t = \"a b\"\n"
        "        ^");
  CHECK(refusal("n = 1\n\0\0\0"s) == "a.toml:2:1: a NUL byte (expected a text, saved as UTF-8)");
}

TEST_CASE("numbers that the notation has no room for") {
  CHECK(refusal("n = 1e400\n") ==
        "a.toml:1:10: not TOML: '1e400' could not be interpreted as a value (in: floating-point)\n"
        "  n = 1e400\n"
        "           ^");
  CHECK(refusal("n = 29,41\n") ==
        "a.toml:1:7: not TOML: expected a comment or whitespace, saw ',' (in: key-value pair)\n"
        "  n = 29,41\n"
        "        ^");
}

TEST_CASE("brackets and dots without end are refused before they overrun anything") {
  CHECK(refusal("a = " + std::string(100000, '[')).find("maximum nested value depth") !=
        std::string::npos);
  std::string dots;
  for (int i = 0; i < 200000; ++i)
    dots += "a.";
  const std::string told =
      "more than 32 words joined by dots (expected a key of few parts, as a.b)";
  CHECK(refusal(dots + "a = 1\n").find("a.toml:1:64: " + told) == 0);
  CHECK(refusal("[" + dots + "a]\n").find("a.toml:1:65: " + told) == 0);
  CHECK(refusal("v = {" + dots + "a = 1}\n").find(told) != std::string::npos);
  CHECK(refusal("a.b.c.d = [1.5, 2.5, 3.5]\n") == "taken");
}

TEST_CASE("an empty file is a document without keys") {
  const Scratch scratch;
  soot::Result<Document> document = Document::load(scratch.write("empty.toml", ""));
  REQUIRE(document);
  CHECK(document->root().keys().empty());
}

TEST_CASE("five megabytes are refused without being read whole") {
  const Scratch scratch;
  const std::string words = "too long for a file of this kind (expected at most 2000000 bytes)";
  const std::filesystem::path file = scratch.write("big.toml", std::string(5'000'000, '{'));
  const soot::Result<Document> document = Document::load(file);
  REQUIRE_FALSE(document);
  CHECK(to_string(document.error()) == file.string() + ": " + words);
  CHECK(refusal(std::string(5'000'000, 'x')) == "a.toml: " + words);
}

TEST_CASE("nonsense just below the limit gets one sentence") {
  std::string nonsense;
  unsigned state = 1;
  while (nonsense.size() < Document::max_bytes) {
    state = state * 1664525U + 1013904223U;
    nonsense += static_cast<char>(' ' + (state >> 16) % 95);
  }
  const soot::Result<Document> document = Document::parse("a.toml", nonsense);
  REQUIRE_FALSE(document);
  CHECK(document.error().size() == 1);
  CHECK(document.error().front().place.line == 1);
}

TEST_CASE("a folder and a file that is not there") {
  const Scratch scratch;
  const soot::Result<Document> folder = Document::load(scratch.path());
  REQUIRE_FALSE(folder);
  CHECK(to_string(folder.error()) == scratch.path().string() + ": not a file that can be read");
  CHECK(folder.error().front().kind == soot::Kind::data);
  const soot::Result<Document> nothing = Document::load("no/such/file.toml");
  REQUIRE_FALSE(nothing);
  CHECK(to_string(nothing.error()) == "no/such/file.toml: no such file");
}
