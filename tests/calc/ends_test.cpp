// The same engine seen from its other end.
#include "core/calc/ends.hpp"

#include "core/model/rotation.hpp"

#include <doctest/doctest.h>

namespace {

using Order = std::vector<int>;
using namespace soot::calc;

}  // namespace

TEST_CASE("sense and end are read together or not at all") {
  const auto fan = soot::rotation_of("clockwise seen from the fan");
  REQUIRE(fan);
  CHECK(fan->clockwise);
  CHECK(fan->end == "the fan");
  const auto ferry = soot::rotation_of(
      "reversible; ahead is anticlockwise seen from the flywheel, and timing is set for ahead");
  REQUIRE(ferry);
  CHECK_FALSE(ferry->clockwise);
  CHECK(ferry->end == "the flywheel");
  CHECK(soot::rotation_of("clockwise seen from aft (it does not reverse)")->end == "aft");
  for (const char* half : {"clockwise", "left-handed", "seen from the fan", "clockwise seen from ",
                           "clockwise seen from , or so", ""})
    CHECK_FALSE(soot::rotation_of(half));
}

TEST_CASE("a shaft turns the other way seen from its other end and back again") {
  const auto seen = *soot::rotation_of("clockwise seen from the fan");
  CHECK(sense_of(from_other_end(seen)) == "anticlockwise");
  CHECK(sense_of(from_other_end(from_other_end(seen))) == "clockwise");
}

TEST_CASE("numbers counted from the other end") {
  CHECK(counted_from_other_end(1, 6) == 6);
  CHECK(counted_from_other_end(2, 3) == 2);
  for (int cylinders = 1; cylinders <= 6; ++cylinders)
    for (int c = 1; c <= cylinders; ++c)
      CHECK(counted_from_other_end(counted_from_other_end(c, cylinders), cylinders) == c);
}

TEST_CASE("orders counted from the other end and turning back") {
  // Common practice, no published source: on four cylinders both common orders turn into
  // themselves from the other end, and into each other astern.
  CHECK(order_from_other_end({1, 3, 4, 2}) == Order{1, 3, 4, 2});
  CHECK(order_from_other_end({1, 2, 4, 3}) == Order{1, 2, 4, 3});
  CHECK(order_turning_back({1, 3, 4, 2}) == Order{1, 2, 4, 3});
  CHECK(order_from_other_end({1, 3, 2}) == Order{1, 2, 3});
  CHECK(order_turning_back({1, 3, 2}) == Order{1, 2, 3});
  for (const Order& order :
       {Order{1}, Order{1, 2}, Order{1, 3, 2}, Order{1, 2, 4, 3}, Order{1, 5, 3, 6, 2, 4}}) {
    CHECK(order_from_other_end(order_from_other_end(order)) == order);
    CHECK(order_turning_back(order_turning_back(order)) == order);
  }
}
