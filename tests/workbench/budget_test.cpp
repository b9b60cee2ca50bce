// The uncertainty that a sum states and the one the network reads by are the same: one budget, seen
// from both ends.
#include "core/calc/depth_budget.hpp"
#include "core/calc/flank.hpp"
#include "core/calc/sum.hpp"
#include "core/workbench/network_builder.hpp"
#include "tests/near.hpp"
#include "tests/workbench/real_bench.hpp"

#include <cmath>

namespace {

using soot::Engine;
using soot::test::near;
namespace calc = soot::calc;

const soot::Quantity& depth_of(const Engine& engine) {
  return soot::get_id(engine.knowledge.quantities, "lifter-depth");
}

/// Standard uncertainty that the sum states of one depth, mm.
double stated_mm(const Engine& engine) {
  calc::Ask ask{engine.family, engine.law.get(), {}};
  calc::Given depth;
  depth.value = engine.family.nominal("lifter-depth").value() + 0.08;
  depth.unit = soot::model_unit(soot::Dimension::length);
  depth.cylinder = 1;
  depth.uncertainty = depth_of(engine).instrument;
  ask.given["depth"].push_back(depth);
  const auto sum = calc::work_out(*calc::find_sum("lifter"), ask);
  REQUIRE_MESSAGE(sum, (sum ? "" : soot::to_string(sum.error())));
  for (const calc::Amount& amount : sum->results)
    if (amount.name == "depth error") return amount.expanded.value() / 2;
  return 0;
}

}  // namespace

TEST_CASE("the sum and the network agree on what a depth is worth") {
  for (const char* family : {"hagmoss-4", "wickerlode-3", "grebemouth-6", "sallowness-2"}) {
    CAPTURE(family);
    const auto made = soot::test::real_bench().engine(family);
    REQUIRE(made);
    const Engine& engine = *made;
    const auto built = soot::build_network(engine, std::nullopt);
    REQUIRE(built);
    const std::size_t at = built->quantity_index.find("lifter-depth")->second;
    const double sound = soot::spread_of(engine, depth_of(engine));
    const double each_cylinder =
        std::sqrt(std::pow(built->network.quantities[at].spread, 2) - sound * sound);
    const calc::DepthBudget budget;
    const double rate = calc::Flank::of(engine.family, engine.law.get()).value().rate_at_top();
    const double common = budget.mark_deg * rate;
    const double jam = calc::rectangular(budget.jam_half_mm);
    CHECK(stated_mm(engine) ==
          near(std::sqrt(std::pow(depth_of(engine).instrument, 2) + each_cylinder * each_cylinder +
                         common * common + jam * jam),
               1e-9));
  }
}

TEST_CASE("the depth gauge of the knowledge is the gauge and scatter of the sum") {
  const calc::DepthBudget budget;
  const double own = std::hypot(calc::rectangular(budget.gauge_half_mm), budget.repeat_mm);
  CHECK(depth_of(soot::test::hagmoss()).instrument == near(own, 0.005));
}

TEST_CASE("what all cylinders share is left out of their differences") {
  const std::vector<double> one{29.2};
  const auto components = calc::depth_components({}, one, 0.12);
  const double own = std::hypot(calc::combined(components, calc::Shared::reading),
                                calc::combined(components, calc::Shared::cylinder));
  const double common = calc::combined(components, calc::Shared::engine);
  CHECK(calc::combined(components) == near(std::hypot(own, common)));
  // Gauge bias and mark: JCGM 100:2008, F.1.2.3, what enters both the same way drops out.
  CHECK(common == near(std::hypot(calc::rectangular(0.0254), 0.15 * 0.12)));
}

TEST_CASE("a quantity that is not read against the crank has its spread alone") {
  const Engine& engine = soot::test::hagmoss();
  for (const char* id : {"plunger-length", "pump-lobe-lift", "spill-angle"}) {
    const auto& quantity = soot::get_id(engine.knowledge.quantities, id);
    CHECK(soot::reading_spread_of(engine, quantity) == soot::spread_of(engine, quantity));
  }
}
