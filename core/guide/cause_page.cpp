#include "core/guide/page_makers.hpp"
#include "core/guide/parting.hpp"
#include "core/model/words.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>

namespace soot {
namespace {

constexpr std::size_t most_alike = 4;
constexpr std::size_t most_parting = 3;
constexpr std::size_t most_checks = 8;

double sum_of(const std::vector<double>& values) {
  double sum = 0;
  for (const double value : values)
    sum += value;
  return sum;
}

void add_grades(const Cause& cause, PageMaker& page) {
  page.section("Kinds of it");
  if (cause.grades.size() < 2) return;
  const double all = sum_of(cause.prior[ordinary]);
  for (std::size_t g = 0; g < cause.grades.size(); ++g)
    page.line(cause.grades[g], all > 0 ? fmt::format("{}: {:.0f} in 100", cause.grade_names[g],
                                                     100 * cause.prior[ordinary][g] / all)
                                       : cause.grade_names[g]);
}

void add_priors(const Shelf& shelf, const Cause& cause, PageMaker& page) {
  page.section("How common");
  const double usual = sum_of(cause.prior[ordinary]);
  page.line("as a rule", word_of(shelf.scale.common, usual));
  if (usual <= 0 || usual >= 1) return;
  for (std::size_t h = 0; h < histories.size(); ++h) {
    const double here = sum_of(cause.prior[h]);
    const double factor = here / (1 - here) * (1 - usual) / usual;
    if (std::abs(factor - 1) < 1e-9) continue;
    std::string word = fmt::format("the odds times {:.2g}", factor);
    for (const auto& [known, number] : shelf.scale.after)
      if (std::abs(number - factor) < 1e-6 * number || number == factor) word = known;
    page.line(std::string{histories[h]}, word);
  }
}

std::string words_alone(const Shelf& shelf, const Cause& cause, const Link& link) {
  if (link.alone.empty()) return "";
  const std::string by_grade = strength_words(shelf.scale, cause, link.alone);
  return fmt::format(
      "; on an engine of one cylinder {}",
      by_grade.empty() ? word_of(shelf.scale.strength, most_of(link.alone)) : by_grade);
}

// Strongest first; those of one strength by name.
void add_signs(const Shelf& shelf, const Cause& cause, PageMaker& page) {
  page.section("What it does");
  std::vector<const Link*> links;
  for (const Link& link : cause.links)
    if (most_of(link.strength) > 0 || (!link.alone.empty() && most_of(link.alone) > 0))
      links.push_back(&link);
  std::stable_sort(links.begin(), links.end(), [](const Link* a, const Link* b) {
    return most_of(a->strength) > most_of(b->strength);
  });
  for (const Link* link : links) {
    const Symptom& symptom = get_id(shelf.knowledge.symptoms, link->symptom);
    const std::string by_grade = strength_words(shelf.scale, cause, link->strength);
    page.line(word_of(shelf.scale.strength, most_of(link->strength)),
              fmt::format("{} ({}){}{}{}", symptom.name, symptom.id, by_grade.empty() ? "" : ": ",
                          by_grade, words_alone(shelf, cause, *link)));
  }
}

void add_effects(const Shelf& shelf, const Cause& cause, PageMaker& page) {
  page.section("What it does to the gauges");
  for (const Effect& effect : cause.effects)
    if (find_id(shelf.knowledge.terms, effect.target) != nullptr ||
        find_id(shelf.knowledge.quantities, effect.target) != nullptr)
      page.line(effect.target, effect_words(cause, effect));
}

// On the family that tells most of it: the first with several cylinders that can have it.
Result<std::optional<Engine>> engine_with(const Bench& bench, const std::string& cause) {
  std::optional<Engine> found;
  for (const Bench::Served& served : bench.families()) {
    if (found && found->family.cylinders > 1) break;
    if (found && served.family.cylinders == 1) continue;
    Result<Engine> engine = bench.engine(served.family.id);
    if (!engine) return pass_on(engine);
    if (find_id(engine->knowledge.causes, cause) != nullptr) found = std::move(*engine);
  }
  return found;
}

struct Telling {
  double ratio = 0;
  const Sign* sign = nullptr;
};

// The signs of some check on which the two differ most, each id once.
std::vector<Telling> parting_signs(const Parting& parting, std::size_t a, std::size_t b) {
  std::vector<Telling> out;
  for (std::size_t s = 0; s < parting.signs().size(); ++s) {
    const Sign& sign = parting.signs()[s];
    if (sign.check == nullptr) continue;
    const double ratio = std::max(parting.ratio(s, a, b), parting.ratio(s, b, a));
    const auto same = std::find_if(out.begin(), out.end(),
                                   [&](const Telling& t) { return t.sign->id == sign.id; });
    if (same != out.end())
      same->ratio = std::max(same->ratio, ratio);
    else if (ratio >= telling_ratio)
      out.push_back({ratio, &sign});
  }
  std::stable_sort(out.begin(), out.end(),
                   [](const Telling& x, const Telling& y) { return x.ratio > y.ratio; });
  return out;
}

void add_alike(const Parting& parting, std::size_t self, PageMaker& page) {
  page.section("What looks like it, and what parts them");
  std::vector<std::pair<double, std::size_t>> alike;
  for (std::size_t c = 0; c < parting.causes().size(); ++c)
    if (c != self && parting.share_a_complaint(self, c))
      alike.emplace_back(-parting.likeness(self, c), c);
  std::sort(alike.begin(), alike.end());
  if (alike.size() > most_alike) alike.resize(most_alike);
  for (const auto& [likeness, c] : alike) {
    std::vector<std::string> by;
    for (const Telling& told : parting_signs(parting, self, c)) {
      if (by.size() == most_parting) break;
      by.push_back(fmt::format("{} (check {})", told.sign->id, told.sign->check->id));
    }
    page.line(parting.causes()[c]->id,
              by.empty() ? "no check parts them well" : fmt::format("{}", fmt::join(by, ", ")));
  }
}

void add_checks(const Parting& parting, std::size_t self, PageMaker& page) {
  page.section("Checks that show it");
  std::vector<const Check*> told;
  for (const Telling& sign : parting_signs(parting, self, parting.sound())) {
    if (std::find(told.begin(), told.end(), sign.sign->check) != told.end()) continue;
    if (told.size() == most_checks) break;
    told.push_back(sign.sign->check);
    page.line(told.back()->id, told.back()->name);
  }
}

void add_corrections(const Shelf& shelf, const Cause& cause, PageMaker& page) {
  page.section("What mends it");
  for (const std::string& id : cause.corrections) {
    const Correction& correction = get_id(shelf.knowledge.corrections, id);
    const auto mend = std::find_if(correction.mends.begin(), correction.mends.end(),
                                   [&](const Mend& m) { return m.cause == cause.id; });
    page.line(id,
              fmt::format("{}{}; {}", correction.name,
                          mend == correction.mends.end()
                              ? ""
                              : fmt::format(", cure {}", word_of(shelf.scale.cure, mend->cure)),
                          minutes_words(correction.minutes, correction.scope == Scope::cylinder)));
  }
}

}  // namespace

std::string strength_words(const Scale& scale, const Cause& cause,
                           const std::vector<double>& strength) {
  if (strength.size() < 2) return "";
  const bool same = std::all_of(strength.begin(), strength.end(),
                                [&](double s) { return s == strength.front(); });
  if (same) return "";
  std::vector<std::string> parts;
  for (std::size_t g = 0; g < strength.size(); ++g)
    if (strength[g] > 0)
      parts.push_back(
          fmt::format("{} when {}", word_of(scale.strength, strength[g]), cause.grade_names[g]));
  return fmt::format("{}", fmt::join(parts, ", "));
}

std::string effect_words(const Cause& cause, const Effect& effect) {
  const std::string_view unit =
      effect.times.empty() ? model_unit(effect.written).name : std::string_view{effect.times};
  const std::string gap = unit.empty() ? "" : fmt::format(" {}", unit);
  std::vector<std::string> parts;
  for (std::size_t g = 0; g < effect.mean.size(); ++g) {
    if (effect.mean[g] == 0 && effect.sd[g] == 0) continue;
    std::string part = cause.grades.size() > 1 ? cause.grade_names[g] + " " : "";
    part += fmt::format("{:+.3g}{}", effect.mean[g], gap);
    if (effect.sd[g] > 0) part += fmt::format(" give or take {:.2g}{}", effect.sd[g], gap);
    parts.push_back(std::move(part));
  }
  std::string out = fmt::format("{}", fmt::join(parts, ", "));
  if (most_of(effect.scatter) > 0)
    out +=
        fmt::format("; besides {:.2g}{} from cylinder to cylinder", most_of(effect.scatter), gap);
  return out;
}

EntryPage page_of(const Shelf& shelf, const Cause& cause) {
  PageMaker page("cause", cause.id, cause.name, cause.about);
  page.section("Where").line("", fmt::format("{}, {}", cause.system, scope_words(cause.scope)));
  add_grades(cause, page);
  page.features(shelf.knowledge, cause.needs, cause.without);
  add_priors(shelf, cause, page);
  add_signs(shelf, cause, page);
  add_effects(shelf, cause, page);
  page.section("What it does not do");
  if (!cause.not_about.empty()) page.line("", cause.not_about);
  const Result<std::optional<Engine>> engine = engine_with(shelf.bench, cause.id);
  if (engine && *engine) {
    const Result<Parting> parting = Parting::on(**engine);
    const std::optional<std::size_t> self = parting ? parting->index_of(cause.id) : std::nullopt;
    if (self) {
      add_alike(*parting, *self, page);
      page.section("Why little parts it");
      if (!cause.unparted.empty()) page.line("", cause.unparted);
      add_checks(*parting, *self, page);
    }
  }
  add_corrections(shelf, cause, page);
  page.cautions(shelf.knowledge, cause.cautions);
  std::vector<std::string> sources{cause.source};
  for (const Link& link : cause.links)
    sources.push_back(link.source);
  for (const Effect& effect : cause.effects)
    sources.push_back(effect.source);
  page.sources(shelf.knowledge, sources);
  return page.take();
}

}  // namespace soot
