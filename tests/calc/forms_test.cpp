// What is common to all sums: their table, their inputs, what they say and what they refuse.
#include "tests/calc/engines.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <limits>
#include <set>
#include <tuple>

namespace {

using soot::Family;
using soot::calc::Ask;
using soot::calc::Sum;
using soot::test::given;
using soot::test::refusal;
using soot::test::work;

/// An input of ordinary size for whatever a sum may need by hand.
soot::calc::Given ordinary(const soot::calc::SumForm& form, const soot::calc::Need& need) {
  using soot::Dimension;
  if (need.figure == "lifter-depth" || need.quantity == "lifter-depth") return given("29.3 mm");
  if (need.quantity == "plunger-length") return given("74.4 mm");
  for (const auto& [name, text] :
       {std::pair{"ratio", "14.8"}, std::pair{"air", "10 C"}, std::pair{"compression", "28 bar"},
        std::pair{"fuel", "0.128 mL"}, std::pair{"over", "15 deg"}, std::pair{"trapped", "3 mL"},
        std::pair{"clearance", "0.02 mm"}, std::pair{"below", "5 mm"}, std::pair{"flats", "1"},
        std::pair{"no-delivery", "2.5 mm"}, std::pair{"limit", "2 bar"}})
    if (need.name == name && form.id != "plunger") return given(text);
  if (form.id == "compression") return given("28 bar");
  if (need.dimension == Dimension::speed) return given("190 rpm");
  if (form.id == "button") return given(need.name == "old-button" ? "3 mm" : "28 mm");
  if (form.id == "shim") return given(need.name == "closing" ? "31 mm" : "30 mm");
  if (need.dimension == Dimension::length) return given("150 mm");
  if (need.dimension == Dimension::pressure) return given("115 bar");
  return given(need.name == "late" || need.name == "by" ? "1 deg" : "14 deg");
}

/// Sums that can be asked in one of several ways, and one of them.
constexpr std::tuple<std::string_view, const char*, const char*> one_of_several[] = {
    {"timing-shim", "late", "1 deg"},
    {"delivery", "rack", "7 mm"},
    {"leak", "cranking", "190 rpm"},
    {"smoke", "opacity", "20 %"},
    {"units", "pressure", "1500 psi"}};

}  // namespace

TEST_CASE("ids of sums are found and stand once") {
  std::set<std::string_view> seen;
  for (const auto& form : soot::calc::sum_forms()) {
    CHECK(seen.insert(form.id).second);
    CHECK(soot::calc::find_sum(form.id) == &form);
    std::set<std::string_view> names;
    for (const auto& need : form.needs)
      CHECK(names.insert(need.name).second);
  }
  CHECK(soot::calc::find_sum("lifters") == nullptr);
}

TEST_CASE("every sum can be done on the Hagmoss four and says all that it must") {
  const Family family = soot::test::hagmoss();
  const auto law = soot::test::law_of(family);
  for (const auto& form : soot::calc::sum_forms()) {
    CAPTURE(form.id);
    Ask ask{family, law.get(), {}};
    for (const auto& [id, name, text] : one_of_several)
      if (form.id == id) ask.given[name].push_back(given(text));
    if (form.id == "spread") ask.given["reading"] = {given("28 bar", 1), given("27 bar", 2)};
    for (const std::string& name : soot::calc::missing_inputs(form, ask))
      for (const auto& need : form.needs)
        if (need.name == name) ask.given[name].push_back(ordinary(form, need));
    CHECK(soot::calc::missing_inputs(form, ask).empty());
    const auto sum = soot::calc::work_out(form, ask);
    CHECK(refusal(sum) == "done");
    if (!sum) continue;
    CHECK(sum->id == form.id);
    CHECK_FALSE(sum->title.empty());
    CHECK_FALSE(sum->formula.empty());
    CHECK_FALSE(sum->lines.empty());
    CHECK_FALSE(sum->results.empty());
    CHECK_FALSE(sum->answer.empty());
    CHECK_FALSE(sum->assumptions.empty());
    CHECK_FALSE(sum->source.empty());
    for (const auto& amount : sum->results) {
      CHECK(std::isfinite(amount.value));
      if (amount.expanded) CHECK(*amount.expanded > 0);
    }
    for (const auto& [name, values] : ask.given) {
      bool noted = false;
      for (const auto& input : sum->inputs)
        noted = noted || input.name == name;
      CHECK(noted);
    }
  }
}

TEST_CASE("inputs tell where they came from") {
  const Family family = soot::test::hagmoss();
  const auto sum = work("lifter", family, {{"depth", given("29.3 mm", 2)}}).value();
  const auto from = [&](std::string_view name) {
    for (const auto& input : sum.inputs)
      if (input.name == name) return input.from;
    return std::string{"none"};
  };
  CHECK(from("depth") == "by hand");
  CHECK(from("figure") == "family");
  CHECK(from("placing") == "usual");
  CHECK(from("base") == "none");
}

TEST_CASE("readings alone make a sum possible") {
  const Family family = soot::test::hagmoss();
  const auto missing = [&](std::string_view id) {
    return soot::calc::missing_inputs(*soot::calc::find_sum(id), Ask{family, nullptr, {}});
  };
  CHECK(missing("lifter") == std::vector<std::string>{"depth"});
  CHECK(missing("plunger") == std::vector<std::string>{"length"});
  CHECK(missing("order").empty());
  CHECK(missing("tooth").empty());
  CHECK(missing("mark").empty());
  const Family none;
  CHECK(soot::calc::missing_inputs(*soot::calc::find_sum("lifter"), Ask{none, nullptr, {}}) ==
        std::vector<std::string>{"depth", "figure"});
}

TEST_CASE("wrong inputs are all told at once") {
  const Family family = soot::test::hagmoss();
  CHECK(refusal(work("lifter", family, {{"dept", given("29.3 mm")}})) ==
        "the sum lifter takes no 'dept' (expected depth, figure, tolerance, pitch, jam-rise, base, "
        "head-clearance, placing, mark, rate, did you mean depth?)\n"
        "the sum lifter needs depth, depth from the pump's mounting face at top centre (expected "
        "depth=MEASURE)");
  CHECK(refusal(work("lifter", family, {{"depth", given("3 bar")}})) ==
        "depth is a pressure (expected a length in mm, in, thou, um, cm, m, ft)");
  CHECK(refusal(work("lifter", family, {{"depth", given("29.3 mm", 7)}})) ==
        "cylinder 7 of 4 (expected 1 to 4)");
  soot::calc::Given bad = given("29.3 mm");
  bad.value = std::numeric_limits<double>::quiet_NaN();
  CHECK(refusal(work("lifter", family, {{"depth", bad}})) == "depth is no number to count with");
  bad = given("29.3 mm");
  bad.uncertainty = -1;
  CHECK_FALSE(work("lifter", family, {{"depth", bad}}));
}

TEST_CASE("a timing sum without a cam says what it wants") {
  Family family;
  family.id = "bare";
  CHECK(refusal(work("mark", family, {})) ==
        "no lift law and no lift rate is known of this engine (expected rate=MEASURE)");
}
