// The map of the handbooks' codes: whole, and about things that exist.
#include "tests/judges/check_map.hpp"

#include <doctest/doctest.h>

TEST_CASE("the handbook map has every code of the tables and no other") {
  soot::judges::check_codes("tests/handbook/map.toml", "handbook/codes.csv");
}

TEST_CASE("the handbook map names what the knowledge has") {
  soot::judges::check_ids("tests/handbook/map.toml", {"symptom"});
}
