#include "tests/judges/code_map.hpp"

#include "tests/host/scratch.hpp"

#include <doctest/doctest.h>

namespace soot::judges {
namespace {

Result<CodeMap> map_of(const std::string& text) {
  const host::test::Scratch scratch("code-map");
  return load_code_map(scratch.write("map.toml", text));
}

std::string map_refusal(const std::string& text) {
  const auto map = map_of(text);
  REQUIRE_FALSE(map);
  return map.error().front().text;
}

}  // namespace

TEST_CASE("a code maps to ids or readings or a history or a reason") {
  const auto map = map_of(R"([finding]
cranks-well = ["not slow-crank", "hunts"]
frost = { reading = "air-temperature", value = "-3 C" }
stood = { history = "long-storage", ids = ["hard-start"] }
turbo = "there is none"
[cause]
late = ["timing-off:late"]
)");
  REQUIRE_MESSAGE(map, to_string(map ? Problems{} : map.error()));
  const CodeTable& finding = map->at("finding");
  REQUIRE(finding.at("cranks-well").ids.size() == 2);
  CHECK(finding.at("cranks-well").ids[0].id == "slow-crank");
  CHECK(finding.at("cranks-well").ids[0].denied);
  CHECK_FALSE(finding.at("cranks-well").ids[1].denied);
  CHECK(finding.at("frost").reading == "air-temperature");
  CHECK(finding.at("frost").value == "-3 C");
  CHECK(finding.at("stood").history == "long-storage");
  CHECK(finding.at("stood").ids.front().id == "hard-start");
  CHECK(finding.at("turbo").left_out == "there is none");
  CHECK(map->at("cause").at("late").ids.front().id == "timing-off");
  CHECK(map->at("cause").at("late").ids.front().direction == "late");
}

TEST_CASE("a map that says nothing of a code is refused") {
  CHECK(map_refusal("[cause]\na = []\n") == "a maps to nothing (expected ids, or why not as text)");
  CHECK(map_refusal("[cause]\na = {}\n") == "a maps to nothing (expected ids, history or reading)");
  CHECK(map_refusal("[cause]\na = [\"b\", \"c\", \"d\", \"e\", \"f\"]\n") ==
        "a has 5 ids (expected at most 4)");
  CHECK(map_refusal("cause = \"a\"\n") == "cause is no table of codes");
}

}  // namespace soot::judges
