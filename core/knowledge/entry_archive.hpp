// Every field of the knowledge's entries, for the archives of cereal. A field that is left out here
// is lost in a snapshot: tests/knowledge/snapshot_test.cpp compares all that the shipped
// knowledge uses, and by hand what it does not.
#pragma once

#include "core/knowledge/loader.hpp"

#include <cereal/types/array.hpp>
#include <cereal/types/map.hpp>
#include <cereal/types/memory.hpp>
#include <cereal/types/optional.hpp>
#include <cereal/types/string.hpp>
#include <cereal/types/vector.hpp>
#include <cstdint>
#include <stdexcept>
#include <string>

namespace soot {

template <class Archive>
void save(Archive& a, const FileName& it) {
  a(it.shared());
}
template <class Archive>
void load(Archive& a, FileName& it) {
  FileName::Shared name;
  a(name);
  it = FileName{std::move(name)};
}

template <class Archive>
void serialize(Archive& a, Place& it) {
  a(it.file, it.line, it.column);
}

template <class Archive>
std::string save_minimal(const Archive&, const Unit& unit) {
  return std::string{unit.name};
}
/// A plain number has a unit without a name.
template <class Archive>
void load_minimal(const Archive&, Unit& unit, const std::string& name) {
  const std::optional<Unit> found = name.empty() ? model_unit(Dimension::number) : find_unit(name);
  if (!found) throw std::runtime_error("no unit is called " + name);
  unit = *found;
}

template <class Archive, class Entry>
void save(Archive& a, const Entries<Entry>& list) {
  a(static_cast<std::uint32_t>(list.size()));
  for (const Entry& entry : list)
    a(entry);
}
template <class Archive, class Entry>
void load(Archive& a, Entries<Entry>& list) {
  std::uint32_t count = 0;
  for (a(count); count > 0; --count) {
    Entry entry;
    a(entry);
    list.push_back(std::move(entry));
  }
}

template <class Archive>
void serialize(Archive& a, Term& it) {
  a(it.id, it.name, it.dimension, it.place);
}

template <class Archive>
void serialize(Archive& a, Symptom& it) {
  a(it.id, it.name, it.scope, it.ask, it.special_of, it.measured_by, it.leak, it.missed,
    it.imagined, it.only_cold, it.will_not_run, it.words, it.needs, it.source, it.place);
}

template <class Archive>
void serialize(Archive& a, Hearing& it) {
  a(it.term, it.per_unit, it.share_of_nominal);
}

template <class Archive>
void serialize(Archive& a, Showing& it) {
  a(it.symptom, it.above, it.margin, it.share_of_reference, it.of_others);
}

template <class Archive>
void serialize(Archive& a, Quantity& it) {
  a(it.id, it.name, it.scope, it.dimension, it.unit, it.decimals, it.figure, it.usual, it.geometry,
    it.hears, it.shows, it.instrument, it.instrument_share, it.spread, it.spread_share, it.least,
    it.most, it.wrong_offset, it.words, it.source, it.place);
}

template <class Archive>
void serialize(Archive& a, Link& it) {
  a(it.symptom, it.strength, it.alone, it.source, it.place);
}

template <class Archive>
void serialize(Archive& a, Effect& it) {
  a(it.target, it.share_of_nominal, it.times, it.written, it.mean, it.sd, it.scatter, it.source,
    it.place);
}

template <class Archive>
void serialize(Archive& a, Cause& it) {
  a(it.id, it.name, it.system, it.scope, it.about, it.not_about, it.unparted, it.grades,
    it.grade_names, it.prior, it.links, it.effects, it.corrections, it.cautions, it.needs,
    it.without, it.source, it.place);
}

template <class Archive>
void serialize(Archive& a, Minutes& it) {
  a(it.set_up, it.each);
}

template <class Archive>
void serialize(Archive& a, Gate& it) {
  a(it.id, it.name, it.before, it.after_caution, it.after_history, it.after_found, it.ask, it.also,
    it.prove, it.within, it.needs, it.source, it.place);
}

template <class Archive>
void serialize(Archive& a, WorkVariant& it) {
  a(it.feature, it.covers, it.tools, it.sum, it.procedure);
}

template <class Archive>
void serialize(Archive& a, Check& it) {
  a(it.id, it.name, it.tells, it.running, it.covers, it.hot, it.cold, it.minutes, it.tools,
    it.answers, it.reads, it.skill, it.cautions, it.asks_history, it.procedure, it.variants,
    it.needs, it.without, it.source, it.place);
}

template <class Archive>
void serialize(Archive& a, Mend& it) {
  a(it.cause, it.cure);
}

template <class Archive>
void serialize(Archive& a, Correction& it) {
  a(it.id, it.name, it.scope, it.mends, it.running, it.covers, it.minutes, it.parts_class, it.tools,
    it.touches, it.brings, it.order, it.sum, it.cautions, it.procedure, it.variants, it.needs,
    it.source, it.place);
}

template <class Archive>
void serialize(Archive& a, Saying& it) {
  a(it.text, it.needs, it.without);
}

template <class Archive>
void serialize(Archive& a, Step& it) {
  a(it.saying, it.cautions);
}

template <class Archive>
void serialize(Archive& a, Procedure& it) {
  a(it.id, it.name, it.steps, it.means, it.source, it.place);
}

template <class Archive>
void serialize(Archive& a, Caution& it) {
  a(it.id, it.text, it.with_any, it.source, it.place);
}

template <class Archive>
void serialize(Archive& a, CoverVariant& it) {
  a(it.feature, it.name, it.open_minutes, it.close_minutes);
}

template <class Archive>
void serialize(Archive& a, Cover& it) {
  a(it.id, it.name, it.open_minutes, it.close_minutes, it.under, it.variants, it.place);
}

template <class Archive>
void serialize(Archive& a, Tool& it) {
  a(it.id, it.name, it.at_hand, it.place);
}

template <class Archive>
void serialize(Archive& a, Feature& it) {
  a(it.id, it.name, it.place);
}

template <class Archive>
void serialize(Archive& a, Synonyms& it) {
  a(it.words, it.place);
}

template <class Archive>
void serialize(Archive& a, Source& it) {
  a(it.key, it.citation, it.place);
}

template <class Archive>
void serialize(Archive& a, Knowledge& it) {
  a(it.terms, it.symptoms, it.quantities, it.causes, it.checks, it.corrections, it.procedures,
    it.cautions, it.gates, it.covers, it.tools, it.features, it.synonyms, it.sources,
    it.history_prior);
}

template <class Archive>
void serialize(Archive& a, Scale& it) {
  a(it.strength, it.common, it.after, it.cure, it.history_prior);
}

template <class Archive>
void serialize(Archive& a, LoadedKnowledge& it) {
  a(it.knowledge, it.scale);
}

}  // namespace soot
