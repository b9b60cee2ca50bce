#include "core/knowledge/entry_readers.hpp"
#include "core/knowledge/fields.hpp"
#include "core/model/words.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <functional>

namespace soot {
namespace {

constexpr std::size_t most_grades = 4;

// A key that holds one thing for all grades, or a table with one for some of them (the rest is 0).
std::vector<double> by_grade(Reader& entry, std::string_view key, const Cause& cause,
                             const std::function<double(Reader&, std::string_view)>& read_one) {
  std::vector<double> out(cause.grades.size(), 0.0);
  if (!entry.is_table(key)) {
    std::fill(out.begin(), out.end(), read_one(entry, key));
    return out;
  }
  std::optional<Reader> table = entry.table(key);
  for (const std::string& grade : table->keys()) {
    const auto found = std::find(cause.grades.begin(), cause.grades.end(), grade);
    const double value = read_one(*table, grade);
    if (found == cause.grades.end()) {
      table->complain(grade, fmt::format("{} has no grade '{}' (it has {})", cause.id, grade,
                                         fmt::join(cause.grades, ", ")));
      continue;
    }
    out[static_cast<std::size_t>(found - cause.grades.begin())] = value;
  }
  return out;
}

struct Grades {
  std::vector<std::string> ids, names;
  std::vector<double> shares;
};

Grades read_grades(Reader& entry) {
  Grades grades;
  double sum = 0;
  for (Reader& grade : entry.tables("grades")) {
    grades.ids.push_back(read_id(grade));
    if (std::count(grades.ids.begin(), grades.ids.end(), grades.ids.back()) > 1)
      grade.complain("id", fmt::format("grade {} is there twice", grades.ids.back()));
    grades.names.push_back(grade.text("name").value_or(grades.ids.back()));
    if (!grade.has("share"))
      grade.complain("share", "share is missing (expected how much of the cause is of this grade)");
    grades.shares.push_back(grade.number("share").value_or(0));
    if (grades.shares.back() < 0)
      grade.complain("share", fmt::format("share is {} (expected 0 to 1)", grades.shares.back()));
    sum += grades.shares.back();
    grade.done();
  }
  if (grades.ids.empty()) {
    grades = Grades{{std::string{only_grade}}, {std::string{only_grade}}, {1.0}};
  } else if (std::abs(sum - 1) > 1e-6) {
    entry.complain("grades",
                   fmt::format("the shares of the grades add up to {} (expected 1)", sum));
  }
  if (grades.ids.size() > most_grades)
    entry.complain("grades",
                   fmt::format("{} grades (expected at most {})", grades.ids.size(), most_grades));
  return grades;
}

// odds * factor, back as a probability: a factor can then never carry a prior past 1.
double after_history(double prior, double factor) {
  return prior * factor / (1 - prior + prior * factor);
}

void read_priors(Reader& entry, const Scale& scale, const std::vector<double>& shares,
                 Cause& cause) {
  if (!entry.has("common"))
    entry.complain("common", "common is missing (expected how common one instance is)");
  double common = read_graded(entry, "common", scale.common, most_prior).value_or(0);
  std::array<double, histories.size()> factor{};
  factor.fill(1);
  if (std::optional<Reader> after = entry.table("after")) {
    for (std::size_t h = 0; h < histories.size(); ++h)
      if (after->has(histories[h]))
        factor[h] = read_graded(*after, histories[h], scale.after, 1000).value_or(1);
    after->done();
  }
  for (std::size_t h = 0; h < histories.size(); ++h)
    for (const double share : shares)
      cause.prior[h].push_back(share * after_history(common, factor[h]));
}

Effect read_effect(Reader& entry, const Cause& cause) {
  Effect effect;
  effect.place = entry.place();
  effect.target = entry.needed_text("on");
  effect.times = entry.text("times").value_or("");
  if (!effect.times.empty() && effect.times != "tooth" && effect.times != "lash" &&
      effect.times != "rack-tooth")
    entry.complain("times",
                   fmt::format("times is '{}' (expected tooth, lash or rack-tooth)", effect.times));
  bool first = true;
  const auto size_of = [&](Reader& reader, std::string_view key) {
    if (!reader.has(key)) return 0.0;
    if (!effect.times.empty()) return reader.number(key).value_or(0);
    if (reader.is_number(key)) {
      reader.complain(key, fmt::format("{} has no unit (expected a measure, as \"0.02 mm\")", key));
      return 0.0;
    }
    const std::optional<Measure> size = reader.measure(key);
    if (!size) return 0.0;
    if (size->bound != Bound::none) complain_of_bound(reader, key, *size);
    if (!first && size->unit.dimension != effect.written)
      reader.complain(key,
                      fmt::format("'{}' is {}, another size of this effect {}", size->as_written,
                                  name_of(size->unit.dimension), name_of(effect.written)));
    effect.written = size->unit.dimension;
    first = false;
    return model_difference(*size);
  };
  if (!entry.has("size")) entry.complain("size", "size is missing (expected what it adds)");
  effect.mean = by_grade(entry, "size", cause, size_of);
  effect.sd = by_grade(entry, "sd", cause, size_of);
  if (entry.has("scatter")) effect.scatter = by_grade(entry, "scatter", cause, size_of);
  for (const double sd : effect.sd)
    if (sd < 0) entry.complain("sd", "sd is negative");
  for (const double scatter : effect.scatter)
    if (scatter < 0) entry.complain("scatter", "scatter is negative");
  if (!effect.scatter.empty() && cause.scope != Scope::engine)
    entry.complain("scatter", "scatter belongs to causes of scope engine");
  effect.source = entry.text("source").value_or(cause.source);
  entry.done();
  return effect;
}

}  // namespace

Cause read_cause(Reader entry, const Scale& scale) {
  Cause cause;
  cause.place = entry.place();
  cause.id = read_id(entry);
  cause.name = entry.needed_text("name");
  cause.system = entry.needed_text("system");
  // The wrong instrument is one variable over all quantities; its scope is a word of its own.
  if (cause.id == instrument_cause) {
    if (entry.text("scope") != "instrument")
      entry.complain("scope", "the scope of instrument-wrong is instrument");
  } else {
    cause.scope = read_scope(entry);
  }
  cause.about = entry.needed_text("about");
  cause.not_about = entry.text("not-about").value_or("");
  cause.unparted = entry.text("unparted").value_or("");
  cause.source = read_source(entry);
  const Grades grades = read_grades(entry);
  cause.grades = grades.ids;
  cause.grade_names = grades.names;
  read_priors(entry, scale, grades.shares, cause);
  for (Reader& link : entry.tables("symptom")) {
    Link read;
    read.place = link.place();
    read.symptom = link.needed_text("id");
    const auto how_often = [&](Reader& reader, std::string_view key) {
      return read_graded(reader, key, scale.strength, 1).value_or(0);
    };
    if (!link.has("how")) link.complain("how", "how is missing (expected how often)");
    read.strength = by_grade(link, "how", cause, how_often);
    if (link.has("alone")) {
      read.alone = by_grade(link, "alone", cause, how_often);
      if (cause.scope != Scope::cylinder)
        link.complain("alone", "alone belongs to causes of scope cylinder");
    }
    read.source = link.text("source").value_or(cause.source);
    link.done();
    cause.links.push_back(std::move(read));
  }
  for (Reader& effect : entry.tables("effect"))
    cause.effects.push_back(read_effect(effect, cause));
  cause.corrections = entry.texts("corrections");
  cause.cautions = entry.texts("cautions");
  cause.needs = entry.texts("needs");
  cause.without = entry.texts("without");
  entry.done();
  return cause;
}

}  // namespace soot
