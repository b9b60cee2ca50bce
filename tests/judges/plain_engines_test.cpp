#include "tests/judges/shipped.hpp"

#include <doctest/doctest.h>

namespace soot::judges {
TEST_CASE("a plain engine has as many cylinders as asked") {
  PlainEngines& plain = shipped_engines();
  for (int cylinders = 1; cylinders <= 8; ++cylinders) {
    const auto engine = plain.engine(cylinders, plain.plain(cylinders));
    REQUIRE(engine);
    CHECK((*engine)->family.cylinders == cylinders);
    CHECK((*engine)->family.firing_order.size() == static_cast<std::size_t>(cylinders));
    CHECK((*engine)->family.has("several-cylinders") == (cylinders > 1));
    CHECK((find_id((*engine)->knowledge.symptoms, "miss-one-cylinder") != nullptr) ==
          (cylinders > 1));
  }
}

TEST_CASE("a part that is needed takes the place of its like") {
  PlainEngines& plain = shipped_engines();
  const auto features = plain.with(plain.plain(4), {"two-stroke", "hand-start"});
  CHECK(features.contains("two-stroke"));
  CHECK_FALSE(features.contains("four-stroke"));
  CHECK_FALSE(features.contains("valves"));
  CHECK(features.contains("hand-start"));
  CHECK_FALSE(features.contains("electric-start"));
  CHECK(features.contains("lifters"));
  CHECK(plain.with(plain.plain(4), {"two-stroke", "valves"}).contains("valves"));
}

TEST_CASE("an engine without heater plugs is offered no dead one") {
  PlainEngines& plain = shipped_engines();
  const auto engine = plain.engine(4, plain.plain(4));
  REQUIRE(engine);
  CHECK(find_id((*engine)->knowledge.causes, "preheat-failed") == nullptr);
}

}  // namespace soot::judges
