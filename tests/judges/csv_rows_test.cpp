#include "tests/judges/csv_rows.hpp"

#include "tests/host/scratch.hpp"

#include <doctest/doctest.h>

namespace soot::judges {
namespace {

Result<std::vector<Row>> rows_of(const std::string& text) {
  const host::test::Scratch scratch("csv-rows");
  return read_rows(scratch.write("rows.csv", text), {"code", "meaning"});
}

std::string rows_refusal(const std::string& text) {
  const auto rows = rows_of(text);
  REQUIRE_FALSE(rows);
  return rows.error().front().text;
}

}  // namespace

TEST_CASE("rows go by the names of their columns") {
  const auto rows = rows_of("kind,code,meaning\ncause,a,\"late, or \"\"off\"\"\"\r\ncause,b,\n");
  REQUIRE(rows);
  REQUIRE(rows->size() == 2);
  CHECK(rows->at(0).at("meaning") == "late, or \"off\"");
  CHECK(rows->at(1).at("code") == "b");
  CHECK(rows->at(1).at("meaning").empty());
}

TEST_CASE("a broken table is refused with its line") {
  CHECK(rows_refusal("") == "is empty");
  CHECK(rows_refusal("kind,code\ncause,a\n") == "has no column meaning");
  CHECK(rows_refusal("code,meaning\na,b,c\n") == "has 3 cells (expected 2)");
  CHECK(rows_refusal("code,meaning\na,\"b\n") == "a quote is in the wrong place");
  const auto rows = read_rows("nowhere.csv", {});
  REQUIRE_FALSE(rows);
  CHECK(rows.error().front().text == "cannot be read");
}

}  // namespace soot::judges
