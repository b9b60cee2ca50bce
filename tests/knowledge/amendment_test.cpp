// A family puts figures of the common knowledge right for its own engines, and no more than
// figures.
#include "core/knowledge/amendment.hpp"

#include "core/model/words.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <string>

namespace {

using soot::Amendment;
using soot::Knowledge;
using soot::Result;

/// One of each kind that can be amended.
Knowledge common() {
  Knowledge all;
  soot::Cause cause;
  cause.id = "plunger-worn";
  cause.grades = {"worn", "far-worn"};
  for (std::size_t h = 0; h < soot::histories.size(); ++h)
    cause.prior[h] = {0.03, 0.01};
  const auto storage = static_cast<std::size_t>(
      std::find(soot::histories.begin(), soot::histories.end(), "long-storage") -
      soot::histories.begin());
  cause.prior[storage] = {0.06, 0.02};
  cause.links.push_back({"hard-start-hot", {0.5, 0.9}, {0.8, 0.95}, "practice", {}});
  soot::Effect effect;
  effect.target = "delivery";
  effect.written = soot::Dimension::share;
  effect.mean = {-3, -10};
  effect.sd = {1, 3};
  cause.effects.push_back(effect);
  all.causes.push_back(cause);
  soot::Quantity depth;
  depth.id = "lifter-depth";
  depth.dimension = soot::Dimension::length;
  depth.instrument = 0.02;
  depth.spread = 0.03;
  all.quantities.push_back(depth);
  soot::Symptom symptom;
  symptom.id = "hard-start-hot";
  symptom.leak = 0.01;
  all.symptoms.push_back(symptom);
  soot::Check check;
  check.id = "depth-look";
  check.minutes = {10, 5};
  all.checks.push_back(check);
  return all;
}

soot::Scale scale() {
  soot::Scale words;
  words.strength = {{"often", 0.5}, {"seldom", 0.1}};
  words.common = {{"rare", 0.002}};
  words.after = {{"more", 3}};
  return words;
}

/// The amended knowledge, or all complaints.
Result<Knowledge> amend(const std::string& text) {
  Result<soot::Document> document = soot::Document::parse("odd-1.toml", text);
  REQUIRE(document);
  soot::Reader root = document->root();
  const std::vector<Amendment> amendments = read_amendments(root, scale());
  root.done();
  if (has_errors(document->problems())) return tl::unexpected<soot::Problems>(document->problems());
  return amended(common(), amendments);
}

std::string told(const std::string& text) {
  const Result<Knowledge> result = amend(text);
  if (result) return "";
  soot::Problems plain = result.error();
  for (soot::Problem& problem : plain) {
    problem.excerpt.clear();
    problem.place.column = 0;
  }
  return soot::to_string(plain);
}

bool near(double a, double b) {
  return std::abs(a - b) < 1e-12;
}

}  // namespace

TEST_CASE("figures of a quantity and a sign and a check are put right") {
  const Knowledge all = amend(R"(
[[amend]]
quantity = "lifter-depth"
spread = "2 thou"
usual = "29 mm"
source = "measured on six engines"
[[amend]]
symptom = "hard-start-hot"
leak = "seldom"
source = "practice"
[[amend]]
check = "depth-look"
each = 9
source = "practice"
)")
                            .value();
  CHECK(near(all.quantities[0].spread, 0.0508));
  CHECK(all.quantities[0].instrument == 0.02);
  CHECK(all.quantities[0].usual == 29.0);
  CHECK(all.quantities[0].source == "measured on six engines");
  CHECK(all.symptoms[0].leak == 0.1);
  CHECK(all.checks[0].minutes.set_up == 10);
  CHECK(all.checks[0].minutes.each == 9);
}

TEST_CASE("a cause is rarer and keeps its grades and what a history does to its odds") {
  const Knowledge all = amend(R"(
[[amend]]
cause = "plunger-worn"
common = "rare"
after = { just-serviced = "more" }
signs = [{ id = "hard-start-hot", how = { far-worn = "often" } }]
effects = [{ on = "delivery", size = "-5 %" }]
source = "practice"
)")
                            .value();
  const soot::Cause& cause = all.causes[0];
  const auto prior = [&](const char* history) {
    for (std::size_t h = 0; h < soot::histories.size(); ++h)
      if (soot::histories[h] == history) return cause.prior[h];
    return std::vector<double>{};
  };
  const auto odds = [](double p) { return p / (1 - p); };
  CHECK(near(prior("ordinary")[0], 0.002 * 0.75));
  CHECK(near(prior("ordinary")[1], 0.002 * 0.25));
  const double stored = prior("long-storage")[0] + prior("long-storage")[1];
  CHECK(near(odds(stored), odds(0.002) * odds(0.08) / odds(0.04)));
  const double serviced = prior("just-serviced")[0] + prior("just-serviced")[1];
  CHECK(near(odds(serviced), odds(0.002) * 3));
  CHECK(cause.links[0].strength == std::vector<double>{0.5, 0.5});
  CHECK(cause.links[0].alone == std::vector<double>{0.8, 0.5});
  CHECK(cause.effects[0].mean == std::vector<double>{-5, -5});
  CHECK(cause.effects[0].sd == std::vector<double>{1, 3});
}

TEST_CASE("an amendment of what is not there is told with its line") {
  CHECK(told("[[amend]]\nquantity = \"lifter-dept\"\nspread = \"1 mm\"\nsource = \"practice\"\n") ==
        "odd-1.toml:1: amends quantity 'lifter-dept', which is not there, did you mean "
        "lifter-depth?");
  CHECK(
      told("[[amend]]\nquantity = \"lifter-depth\"\nspread = \"1 bar\"\nsource = \"practice\"\n") ==
      "odd-1.toml:1: spread: '1 bar' is a pressure (expected a length)");
  CHECK(
      told("[[amend]]\nquantity = \"lifter-depth\"\nspread = \"-1 mm\"\nsource = \"practice\"\n") ==
      "odd-1.toml:1: spread is negative (expected 0 or more)");
  CHECK(told("[[amend]]\nquantity = \"lifter-depth\"\nsource = \"practice\"\n") ==
        "odd-1.toml:2: changes no figure of lifter-depth");
  CHECK(told("[[amend]]\nspread = \"1 mm\"\nsource = \"practice\"\n")
            .find("odd-1.toml:1: names nothing (expected cause, symptom, quantity, check or "
                  "correction)") == 0);
  CHECK(told("[[amend]]\ncause = \"plunger-worn\"\nsigns = [{ id = \"smoke\", how = \"often\" }]\n"
             "source = \"practice\"\n") == "odd-1.toml:3: plunger-worn makes no sign 'smoke'");
  CHECK(told("[[amend]]\ncause = \"plunger-worn\"\n"
             "signs = [{ id = \"hard-start-hot\", how = { gone = \"often\" } }]\n"
             "source = \"practice\"\n") ==
        "odd-1.toml:3: plunger-worn has no grade 'gone' (it has worn, far-worn)");
  CHECK(told("[[amend]]\ncause = \"plunger-worn\"\neffects = [{ on = \"delivery\", size = \"1 mm\" "
             "}]\n"
             "source = \"practice\"\n") ==
        "odd-1.toml:3: '1 mm' is a length (expected a percentage)");
  CHECK(told("[[amend]]\nsymptom = \"hard-start-hot\"\nleak = \"seldom\"\n") ==
        "odd-1.toml:1: source is missing (expected a text)");
}
