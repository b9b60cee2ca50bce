#include "core/knowledge/amendment.hpp"
#include "core/knowledge/fields.hpp"
#include "core/model/words.hpp"

#include <fmt/format.h>

#include <array>

namespace soot {
namespace {

constexpr std::array<std::string_view, 5> kinds{"cause", "symptom", "quantity", "check",
                                                "correction"};
constexpr double most_chance = 0.999;

/// One value for all grades, or a table of them.
template <class Value, class Read>
Amendment::ByGrade<Value> by_grade(Reader& entry, std::string_view key, Read read) {
  Amendment::ByGrade<Value> out;
  if (!entry.is_table(key)) {
    if (std::optional<Value> value = read(entry, key)) out[""] = *value;
    return out;
  }
  Reader table = *entry.table(key);
  for (const std::string& grade : table.keys())
    if (std::optional<Value> value = read(table, grade)) out[grade] = *value;
  return out;
}

void read_cause_figures(Reader& entry, const Scale& scale, Amendment& amendment) {
  if (entry.has("common"))
    amendment.common = read_graded(entry, "common", scale.common, most_prior);
  if (std::optional<Reader> after = entry.table("after")) {
    for (const std::string_view history : histories)
      if (after->has(history))
        amendment.after[std::string{history}] =
            read_graded(*after, history, scale.after, 1000).value_or(1);
    after->done();
  }
  for (Reader& sign : entry.tables("signs")) {
    amendment.signs.push_back({sign.needed_text("id"),
                               by_grade<double>(sign, "how",
                                                [&](Reader& reader, std::string_view key) {
                                                  return read_graded(reader, key, scale.strength,
                                                                     1);
                                                }),
                               sign.place()});
    sign.done();
  }
  const auto measure = [](Reader& reader, std::string_view key) { return reader.measure(key); };
  for (Reader& effect : entry.tables("effects")) {
    amendment.effects.push_back({effect.needed_text("on"),
                                 by_grade<Measure>(effect, "size", measure),
                                 by_grade<Measure>(effect, "sd", measure), effect.place()});
    effect.done();
  }
}

void read_numbers(Reader& entry, const Scale& scale, Amendment& amendment) {
  if (amendment.kind == "symptom")
    for (const char* key : {"leak", "missed", "imagined"})
      if (entry.has(key))
        amendment.numbers[key] = read_graded(entry, key, scale.strength, most_chance).value_or(0);
  if (amendment.kind == "quantity")
    for (const char* key :
         {"instrument", "spread", "wrong-offset", "usual", "instrument-share", "spread-share"})
      if (const std::optional<Measure> measure = entry.measure(key)) {
        if (measure->bound != Bound::none) complain_of_bound(entry, key, *measure);
        amendment.measures[key] = *measure;
      }
  if (amendment.kind == "check" || amendment.kind == "correction")
    for (const char* key : {"set-up", "each"})
      if (entry.has(key)) amendment.numbers[key] = read_minutes(entry, key);
}

}  // namespace

std::vector<Amendment> read_amendments(Reader& root, const Scale& scale) {
  std::vector<Amendment> amendments;
  for (Reader& entry : root.tables("amend")) {
    Amendment amendment;
    amendment.place = entry.place();
    for (const std::string_view kind : kinds) {
      if (!entry.has(kind)) continue;
      if (!amendment.kind.empty())
        entry.complain(kind,
                       fmt::format("names a {} and a {} (expected one)", amendment.kind, kind));
      amendment.kind = kind;
      amendment.id = entry.needed_text(kind);
    }
    if (amendment.kind.empty())
      entry.complain("", "names nothing (expected cause, symptom, quantity, check or correction)");
    if (amendment.kind == "cause") read_cause_figures(entry, scale, amendment);
    read_numbers(entry, scale, amendment);
    amendment.source = read_source(entry);
    if (!amendment.kind.empty() && amendment.measures.empty() && amendment.numbers.empty() &&
        !amendment.common && amendment.after.empty() && amendment.signs.empty() &&
        amendment.effects.empty())
      entry.complain(amendment.kind, fmt::format("changes no figure of {}", amendment.id));
    entry.done();
    amendments.push_back(std::move(amendment));
  }
  return amendments;
}

}  // namespace soot
