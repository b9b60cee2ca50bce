// Sums that concern all cylinders: tooth, lash, mark, top centre, setting order.
#include "tests/calc/engines.hpp"
#include "tests/near.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <set>

namespace {

using soot::Family;
using soot::calc::Sum;
using soot::test::given;
using soot::test::hagmoss_sum;
using soot::test::Inputs;
using soot::test::printed;
using soot::test::result;
using soot::test::says;
using soot::test::uncertainty;
using soot::test::work;

}  // namespace

TEST_CASE("what a tooth looks like") {
  // Design values: a tooth of the Hagmoss four is 12.00 deg, 1.44 mm of depth.
  const auto sum = hagmoss_sum("tooth");
  CHECK(printed(sum, "one tooth") == "12.00 deg");
  CHECK(printed(sum, "depth of every cylinder, a tooth late") == "30.64 mm");
  CHECK(printed(sum, "spill of every cylinder, a tooth late") == "3.0 deg");
  CHECK(printed(sum, "depth of every cylinder, a tooth early") == "27.76 mm");
  CHECK(printed(sum, "spill of every cylinder, a tooth early") == "27.0 deg");
}

TEST_CASE("depths are held against the tooth") {
  Inputs late;
  for (int cylinder = 1; cylinder <= 4; ++cylinder)
    late.emplace_back("depth", given(cylinder == 2 ? "30.70 mm" : "30.62 mm", cylinder));
  CHECK(says(hagmoss_sum("tooth", late).answer, "fits 1 tooth out, late"));
  Inputs half = late;
  for (auto& [name, depth] : half)
    depth.value -= 0.72;
  CHECK(says(hagmoss_sum("tooth", half).answer, "does not fit a tooth out"));
  Inputs one = late;
  for (std::size_t i = 1; i < one.size(); ++i)
    one[i].second.value = 29.2;
  CHECK(says(hagmoss_sum("tooth", one).answer, "does not fit a tooth out"));
  const Family none;
  CHECK_FALSE(work("tooth", none, {{"rate", given("0.12 mm/deg")}}));
}

TEST_CASE("what the lash looks like") {
  // Design values: 0.86 deg at the limit, 0.103 mm of depth; 0.38 deg new.
  const auto sum = hagmoss_sum("lash");
  CHECK(printed(sum, "lash at the crank") == "0.86 deg");
  CHECK(printed(sum, "lash at the crank, new") == "0.38 deg");
  CHECK(result(sum, "depth of every cylinder, set after turning back, at most") - 29.20 ==
        soot::test::near(0.103, 0.005));
  CHECK(result(sum, "depth of every cylinder, read after turning back, at most") < 29.20);
  const auto measured = hagmoss_sum("lash", {{"backlash", given("0.20 mm")}});
  CHECK(printed(measured, "lash at the crank") == "0.38 deg");
  CHECK(says(measured.lines, "(measured)"));
  const Family none;
  CHECK_FALSE(work("lash", none, {{"rate", given("0.12 mm/deg")}, {"backlash", given("0.2 mm")}}));
}

TEST_CASE("what a wrong mark looks like") {
  const auto sum = hagmoss_sum("mark", {{"late", given("3 deg")}});
  CHECK(printed(sum, "depth of every cylinder, mark moved") == "29.56 mm");
  CHECK(printed(sum, "spill of every cylinder, mark moved") == "12.0 deg");
  CHECK(says(sum.answer,
             "set by the wrong mark: every cylinder reads right, and the engine runs "
             "3.0 deg early"));
}

TEST_CASE("top centre from a degree wheel") {
  // Oracle K5 (finding top centre, worked example steps 11 and 12): 21 and 15, 18 each side, out
  // by 3.
  const Family none;
  const auto sum =
      work("two-stops", none, {{"before", given("21 deg")}, {"after", given("15 deg")}}).value();
  CHECK(result(sum, "each side") == 18);
  CHECK(std::fabs(result(sum, "readings against the mark look late")) == 3);
  // The wheel's zero comes three degrees past true top: a reading of 21 is really 18 before it.
  CHECK(result(sum, "readings against the mark look late") == -3);
  CHECK_FALSE(work("two-stops", none, {{"before", given("2 deg")}, {"after", given("1 deg")}}));
}

TEST_CASE("the pointer sets the uncertainty of top centre") {
  // Computed example: indicator 0.0005 in, pointer 0.25 deg, both rectangular: 0.10 deg at any stop
  // from 10 to 90 deg.
  Family family;
  soot::test::put(family, "stroke", "12 in");
  soot::test::put(family, "rod-length", "24 in");
  for (const char* angle : {"10 deg", "30 deg", "90 deg"}) {
    const auto sum =
        work("two-stops", family, {{"before", given(angle)}, {"after", given(angle)}}).value();
    CHECK(uncertainty(sum, "readings against the mark look late") == soot::test::near(0.20, 0.05));
    CHECK(says(sum.answer, "the mark is right as far as this shows"));
  }
}

TEST_CASE("top centre from two marks agrees with the degree wheel") {
  // The same engine measured both ways: first mark 21 deg of wheel before its zero, second 15
  // after.
  const Family family = soot::test::hagmoss();
  const double mm_per_deg = 4.886922;  // pi x 560 / 360
  soot::calc::Given arc = given("0 mm");
  arc.value = 36 * mm_per_deg;
  soot::calc::Given mark = given("0 mm");
  mark.value = 21 * mm_per_deg;
  const auto sum = work("top-centre", family, {{"arc", arc}, {"mark", mark}}).value();
  CHECK(result(sum, "readings against the mark look late") == soot::test::near(-3, 1e-6));
  CHECK(says(sum.answer, "comes 3.0 deg after true top: readings against it look 3.0 deg early"));
}

TEST_CASE("setting order as a sum") {
  const auto sum = hagmoss_sum("order");
  CHECK(sum.answer ==
        std::vector<std::string>{"cylinder 1 at 0 deg, on the mark it shares with 4",
                                 "cylinder 2 at 180 deg, on the mark it shares with 3",
                                 "cylinder 4 at 360 deg, on the mark it shares with 1",
                                 "cylinder 3 at 540 deg, on the mark it shares with 2"});
}
