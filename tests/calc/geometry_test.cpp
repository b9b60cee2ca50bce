// What each engine term does to each instrument, and that no two causes leave the same trace.
#include "core/calc/geometry.hpp"

#include "core/model/words.hpp"
#include "tests/calc/engines.hpp"
#include "tests/near.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <map>

namespace {

using soot::Family;
using soot::calc::LiftLaw;
using soot::calc::TermResponse;
namespace term = soot::term;

double shift(std::string_view geometry, std::string_view wanted, double magnitude,
             const Family& family, const LiftLaw* law) {
  const auto responses = soot::calc::responses(geometry, family, law).value();
  for (const TermResponse& response : responses)
    if (response.term == wanted) return response.at(magnitude);
  return 0;
}

constexpr std::array<std::string_view, 5> terms{term::drive_late, term::lifter_low, term::lobe_worn,
                                                term::plunger_short, term::mark_late};

}  // namespace

TEST_CASE("depth follows the lift law late and early far from top") {
  for (const Family& family : {soot::test::hagmoss(), soot::test::tangent_engine()}) {
    const auto law = soot::test::law_of(family);
    // A law of one rate is taken as a line, past the end that it has at 38.3 deg.
    const double reach_deg = family.law.name == "constant-rate" ? 38 : 40;
    for (double late_deg = -reach_deg + 0.03; late_deg < reach_deg; late_deg += 0.73) {
      const double exact_mm = law->lift_mm(0) - law->lift_mm(-late_deg);
      for (const std::string_view word : {term::drive_late, term::mark_late})
        CHECK(std::fabs(shift("depth", word, late_deg, family, law.get()) - exact_mm) < 0.004);
    }
  }
}

TEST_CASE("depth points go on past their ends with the last slope") {
  const Family family = soot::test::hagmoss();
  const auto law = soot::test::law_of(family);
  CHECK(shift("depth", term::drive_late, -45, family, law.get()) == soot::test::near(-45 * 0.12));
  // On a curved flank: past the base circle nothing changes any more.
  const Family curved = soot::test::tangent_engine();
  const auto curved_law = soot::test::law_of(curved);
  const double at_end = shift("depth", term::drive_late, 40, curved, curved_law.get());
  const double before_end = shift("depth", term::drive_late, 39.9, curved, curved_law.get());
  CHECK(shift("depth", term::drive_late, 60, curved, curved_law.get()) ==
        soot::test::near(at_end + 200 * (at_end - before_end)));
}

TEST_CASE("every term moves what it should by the sign that late has") {
  const Family family = soot::test::hagmoss();
  const auto law = soot::test::law_of(family);
  const auto at = [&](std::string_view geometry, std::string_view word) {
    return shift(geometry, word, 1, family, law.get());
  };
  CHECK(at("depth", term::drive_late) == soot::test::near(0.12));
  CHECK(at("depth", term::mark_late) == soot::test::near(0.12));
  CHECK(at("depth", term::lifter_low) == 1);
  CHECK(at("depth", term::lobe_worn) == 1);
  CHECK(at("depth", term::plunger_short) == 0);
  CHECK(at("base-depth", term::lifter_low) == 1);
  CHECK(at("spill", term::drive_late) == -1);
  CHECK(at("spill", term::mark_late) == -1);
  for (const auto word : {term::lifter_low, term::lobe_worn, term::plunger_short})
    CHECK(at("spill", word) == soot::test::near(-1 / 0.12));
  CHECK(at("plunger-length", term::plunger_short) == -1);
  CHECK(at("lobe-lift", term::lobe_worn) == -1);
  CHECK(at("mark", term::mark_late) == 1);
  for (const auto word : {term::drive_late, term::lobe_worn, term::plunger_short, term::mark_late})
    CHECK(at("base-depth", word) == 0);
}

TEST_CASE("spill hears a low lifter as the law says for small amounts") {
  const Family family = soot::test::tangent_engine();
  const auto law = soot::test::law_of(family);
  constexpr double low_mm = 1e-4;
  const double exact_deg = law->angle_deg(5).value() - law->angle_deg(5 + low_mm).value();
  CHECK(shift("spill", term::lifter_low, low_mm, family, law.get()) ==
        soot::test::near(exact_deg, 1e-4));
}

TEST_CASE("no two terms leave the same trace") {
  const Family family = soot::test::hagmoss();
  const auto law = soot::test::law_of(family);
  std::map<std::vector<long>, std::string_view> seen;
  for (const std::string_view word : terms) {
    std::vector<long> trace;
    for (const std::string_view geometry : soot::calc::geometry_words)
      trace.push_back(std::lround(1000 * shift(geometry, word, 1, family, law.get())));
    CHECK(seen.emplace(trace, word).second);
  }
  CHECK(seen.size() == terms.size());
}

TEST_CASE("what reads depth right and spill late is the plunger") {
  const Family family = soot::test::hagmoss();
  const auto law = soot::test::law_of(family);
  for (const std::string_view word : terms) {
    const bool depth_right = shift("depth", word, 1, family, law.get()) == 0;
    const bool spill_late = shift("spill", word, 1, family, law.get()) < 0;
    CHECK((depth_right && spill_late) == (word == term::plunger_short));
  }
}

TEST_CASE("a family with a lift rate only gets straight responses") {
  const Family family = soot::test::hagmoss();
  const auto responses = soot::calc::responses("depth", family, nullptr).value();
  CHECK(responses.size() == 4);
  for (const TermResponse& response : responses)
    CHECK(response.points.empty());
  CHECK(shift("depth", term::drive_late, 12, family, nullptr) == soot::test::near(1.44));
}

TEST_CASE("figures that are missing are worked out from the others") {
  Family family = soot::test::hagmoss();
  const auto law = soot::test::law_of(family);
  const auto derived = [&](std::string_view word) {
    return soot::calc::derived_nominal(word, family, law.get());
  };
  // Design values of the family table.
  CHECK(derived("depth").value() == soot::test::near(29.20));
  CHECK(derived("base-depth").value() == soot::test::near(33.80));
  CHECK(derived("spill").value() == soot::test::near(15));
  CHECK(derived("lobe-lift").value() == soot::test::near(10));
  CHECK(derived("mark").value() == 0);
  CHECK_FALSE(derived("plunger-length"));
  family.figures.erase("lifter-depth-base");
  CHECK(derived("depth").value() == soot::test::near(29.20));
  family.figures.erase("foot-at-closing");
  CHECK_FALSE(derived("depth"));
  CHECK(derived("base-depth").value() == soot::test::near(33.80));
  CHECK_FALSE(soot::calc::derived_nominal("depth", family, nullptr));
}

TEST_CASE("an unknown rule and a family without a cam are refused") {
  const Family family = soot::test::tangent_engine();
  auto bad = soot::calc::responses("dept", family, nullptr);
  REQUIRE_FALSE(bad);
  CHECK(bad.error().front().text ==
        "'dept' is no rule of geometry (expected depth, base-depth, spill, rim-arc, piston-drop, "
        "plunger-length, lobe-lift, mark, did you mean depth?)");
  bad = soot::calc::responses("depth", family, nullptr);
  REQUIRE_FALSE(bad);
  CHECK(bad.error().front().text ==
        "family tangent gives no lift law (expected one, or a figure lift-rate)");
  for (const std::string_view word : soot::calc::geometry_words)
    CHECK(soot::calc::is_geometry_word(word));
  CHECK_FALSE(soot::calc::is_geometry_word("rim-ark"));
}
