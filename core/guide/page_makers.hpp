// One page of each kind of entry. Internal to core/guide.
#pragma once

#include "core/guide/page_words.hpp"
#include "core/workbench/bench.hpp"

namespace soot {

struct Shelf {
  const Bench& bench;
  const Knowledge& knowledge;  ///< whole_knowledge
  const Scale& scale;
};

EntryPage page_of(const Shelf& shelf, const Cause& cause);
EntryPage page_of(const Shelf& shelf, const Symptom& symptom);
EntryPage page_of(const Shelf& shelf, const Quantity& quantity);
EntryPage page_of(const Shelf& shelf, const Term& term);
EntryPage page_of(const Shelf& shelf, const Check& check);
EntryPage page_of(const Shelf& shelf, const Correction& correction);
EntryPage page_of(const Shelf& shelf, const Procedure& procedure);
EntryPage page_of(const Shelf& shelf, const Caution& caution);
EntryPage page_of(const Shelf& shelf, const Tool& tool);
EntryPage page_of(const Shelf& shelf, const Cover& cover);
EntryPage page_of(const Shelf& shelf, const Feature& feature);
EntryPage page_of(const Shelf& shelf, const Source& source);

/// Which grades, and how strongly: "usually; seldom when a little late". `strength`: by grade.
std::string strength_words(const Scale& scale, const Cause& cause,
                           const std::vector<double>& strength);
/// "a little late +0.09 mm give or take 0.035 mm; ...".
std::string effect_words(const Cause& cause, const Effect& effect);

}  // namespace soot
