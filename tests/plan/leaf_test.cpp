// The plan of corrections only, against the exact costs stated with the 24 problems.
#include "core/plan/leaf.hpp"

#include "core/plan/tables.hpp"
#include "tests/plan/fixture.hpp"

#include <doctest/doctest.h>

#include <cmath>

namespace plan = soot::plan;

TEST_CASE("without checks the leaf costs what the plan of corrections costs on all 24 problems") {
  for (const plan::test::Fixture& fixture : plan::test::all_fixtures()) {
    CAPTURE(fixture.name);
    const plan::Tables tables = plan::make_tables(fixture.situation);
    plan::Leaf leaf(tables);
    const plan::Left all(tables.corrections.size(), 1);
    const plan::Rest rest = leaf(tables.start, tables.start_on, all);
    const nlohmann::json& stated = fixture.answer.at("policies").at("repair-only");
    CHECK(std::abs(rest.cost - stated.at("cost").get<double>()) < 1e-6);
    CHECK(plan::test::written(rest.first) == stated.at("first").get<std::string>());
  }
}
