#include "core/guide/page_makers.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

namespace soot {
namespace {

struct Maker {
  const Cause* cause = nullptr;
  const Link* link = nullptr;
  double chance = 0;  ///< that an engine has it and shows this by it
};

// The likeliest first: how common times how strong.
std::vector<Maker> makers_of(const Knowledge& knowledge, const std::string& symptom) {
  std::vector<Maker> out;
  for (const Cause& cause : knowledge.causes)
    for (const Link& link : cause.links) {
      if (link.symptom != symptom || most_of(link.strength) <= 0) continue;
      double chance = 0;
      for (std::size_t g = 0; g < link.strength.size(); ++g)
        chance += cause.prior[ordinary][g] * link.strength[g];
      out.push_back({&cause, &link, chance});
    }
  std::stable_sort(out.begin(), out.end(),
                   [](const Maker& a, const Maker& b) { return a.chance > b.chance; });
  return out;
}

void add_checks(const Knowledge& knowledge, const std::string& id, PageMaker& page) {
  for (const Check& check : knowledge.checks)
    if (names(check.answers, id) || names(check.reads, id)) page.line(check.id, check.name);
}

void add_words(const std::vector<std::string>& words, PageMaker& page) {
  page.section("How it is said");
  if (!words.empty()) page.line("", fmt::format("\"{}\"", fmt::join(words, "\", \"")));
}

std::string measure(double value, const Unit& unit, int decimals) {
  return print_in(value, unit, decimals);
}

// A difference has no offset: 5 degrees more are 5 degrees.
std::string difference(double value, const Unit& unit, int decimals) {
  return print_in(value + unit.offset, unit, decimals);
}

void add_movers(const Shelf& shelf, const std::string& target, PageMaker& page) {
  for (const Cause& cause : shelf.knowledge.causes)
    for (const Effect& effect : cause.effects)
      if (effect.target == target)
        page.line(cause.id, fmt::format("{}: {}", cause.name, effect_words(cause, effect)));
}

}  // namespace

EntryPage page_of(const Shelf& shelf, const Symptom& symptom) {
  const Knowledge& knowledge = shelf.knowledge;
  PageMaker page("symptom", symptom.id, symptom.name, symptom.ask);
  page.section("Where").line("", scope_words(symptom.scope));
  if (symptom.only_cold) page.line("", "shows on a cold engine only");
  if (symptom.will_not_run) page.line("", "while it is there the engine cannot be run");
  page.features(knowledge, symptom.needs, {});
  add_words(symptom.words, page);
  page.section("General and special");
  if (symptom.special_of) page.line(*symptom.special_of, "the general one: this says more");
  for (const Symptom& other : knowledge.symptoms)
    if (other.special_of == symptom.id) page.line(other.id, other.name + ": says more than this");
  page.section("A reading that says it better");
  page.names(symptom.measured_by, knowledge.quantities);
  page.section("What makes it, likeliest first");
  for (const Maker& maker : makers_of(knowledge, symptom.id)) {
    const std::string by_grade = strength_words(shelf.scale, *maker.cause, maker.link->strength);
    page.line(word_of(shelf.scale.strength, most_of(maker.link->strength)),
              fmt::format("{} ({}){}{}", maker.cause->name, maker.cause->id,
                          by_grade.empty() ? "" : ": ", by_grade));
  }
  page.section("How far it is to be trusted");
  page.line("there for other reasons", word_of(shelf.scale.strength, symptom.leak));
  if (symptom.missed > 0) page.line("missed", word_of(shelf.scale.strength, symptom.missed));
  if (symptom.imagined > 0) page.line("imagined", word_of(shelf.scale.strength, symptom.imagined));
  page.section("Checks that answer it");
  add_checks(knowledge, symptom.id, page);
  page.section("To enter it")
      .line("", fmt::format("sootsayer saw {}{} (or --absent)", symptom.id,
                            symptom.scope == Scope::cylinder ? " CYLINDER" : ""));
  page.sources(knowledge, {symptom.source});
  return page.take();
}

EntryPage page_of(const Shelf& shelf, const Quantity& quantity) {
  const Knowledge& knowledge = shelf.knowledge;
  const Unit& unit = quantity.unit;
  PageMaker page("quantity", quantity.id, quantity.name);
  page.section("Where").line("", scope_words(quantity.scope));
  add_words(quantity.words, page);
  page.section("Figures");
  if (!quantity.figure.empty())
    page.line("sound engine", fmt::format("the family's figure {}", quantity.figure));
  if (quantity.usual) page.line("usual", measure(*quantity.usual, unit, quantity.decimals));
  page.line("can be", fmt::format("{} to {}", measure(quantity.least, unit, quantity.decimals),
                                  measure(quantity.most, unit, quantity.decimals)));
  if (quantity.instrument > 0)
    page.line("one reading",
              "give or take " + difference(quantity.instrument, unit, quantity.decimals + 1));
  if (quantity.instrument_share > 0)
    page.line("one reading", fmt::format("give or take {:.2g} %", quantity.instrument_share));
  if (quantity.spread > 0)
    page.line("sound engines",
              "differ by " + difference(quantity.spread, unit, quantity.decimals + 1));
  if (quantity.spread_share > 0)
    page.line("sound engines", fmt::format("differ by {:.2g} %", quantity.spread_share));
  if (quantity.wrong_offset > 0)
    page.line("wrong instrument",
              "off by some " + difference(quantity.wrong_offset, unit, quantity.decimals));
  page.section("What it shows");
  for (const Showing& showing : quantity.shows)
    page.line(showing.symptom,
              fmt::format("if {} {} by {}", showing.above ? "above" : "below",
                          showing.of_others ? "the other cylinders" : "the figure",
                          showing.share_of_reference
                              ? fmt::format("{:.3g} %", showing.margin)
                              : difference(showing.margin, unit, quantity.decimals)));
  page.section("What it hears");
  if (!quantity.geometry.empty())
    page.line("geometry", fmt::format("{}, through the family's lift law", quantity.geometry));
  for (const Hearing& hearing : quantity.hears)
    page.line(hearing.term,
              hearing.share_of_nominal
                  ? fmt::format("{:+.3g} % of the figure for each unit of it", hearing.per_unit)
                  : fmt::format("{:+.3g} {} for each unit of it", hearing.per_unit,
                                model_unit(quantity.dimension).name));
  page.section("What moves it of itself");
  add_movers(shelf, quantity.id, page);
  page.section("Checks that read it");
  add_checks(knowledge, quantity.id, page);
  page.section("To enter it")
      .line("", fmt::format("sootsayer gauge {} {}...{}", quantity.id,
                            quantity.scope == Scope::cylinder ? "CYLINDER=" : "", unit.name));
  page.sources(knowledge, {quantity.source});
  return page.take();
}

EntryPage page_of(const Shelf& shelf, const Term& term) {
  PageMaker page("term", term.id, term.name,
                 fmt::format("What causes do to the engine, in {}, before any instrument sees it.",
                             model_unit(term.dimension).name));
  page.section("Causes that act on it");
  add_movers(shelf, term.id, page);
  page.section("Quantities that hear it");
  for (const Quantity& quantity : shelf.knowledge.quantities)
    for (const Hearing& hearing : quantity.hears)
      if (hearing.term == term.id) page.line(quantity.id, quantity.name);
  return page.take();
}

}  // namespace soot
