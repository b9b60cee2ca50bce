// The map of the solved cases' codes: whole, and about things that exist.
#include "tests/judges/check_map.hpp"

#include <doctest/doctest.h>

TEST_CASE("the map of told faults has every code of the list and no other") {
  soot::judges::check_codes("tests/solved/map.toml", "solved/codes.csv");
}

TEST_CASE("the map of told faults names what the knowledge has") {
  soot::judges::check_ids("tests/solved/map.toml", {"context", "complaint", "finding"});
}
