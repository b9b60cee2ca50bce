// What the cross-checks of all kinds of entry share: every entry by its id, and the sentences for a
// name that is not there. Internal to core/knowledge.
#pragma once

#include "core/base/text.hpp"
#include "core/knowledge/id_index.hpp"
#include "core/knowledge/pinpoint.hpp"

#include <fmt/format.h>

#include <string>
#include <string_view>
#include <vector>

namespace soot {

class References {
 public:
  /// Complains of ids in `own` that are there already.
  References(const Knowledge& common, const Knowledge& own);

  IdIndex<Term> terms;
  IdIndex<Symptom> symptoms;
  IdIndex<Quantity> quantities;
  IdIndex<Cause> causes;
  IdIndex<Check> checks;
  IdIndex<Correction> corrections;
  IdIndex<Procedure> procedures;
  IdIndex<Caution> cautions;
  IdIndex<Cover> covers;
  IdIndex<Tool> tools;
  IdIndex<Feature> features;
  IdIndex<Source> sources;

  /// `name`: the word that is wrong, to be found in the entry; empty = the entry's own line.
  void add(const Place& place, std::string words, std::string_view name = "");

  template <class Entry>
  bool known(const Place& place, const IdIndex<Entry>& index, std::string_view kind,
             const std::string& id, std::string_view who) {
    if (index.find(id) != nullptr) return true;
    add(place,
        fmt::format("{} names {} '{}', which is not there{}", who, kind, id,
                    did_you_mean(id, index.ids())),
        id);
    return false;
  }

  template <class Entry>
  void all_known(const Place& place, const IdIndex<Entry>& index, std::string_view kind,
                 const std::vector<std::string>& ids, std::string_view who) {
    for (const std::string& id : ids)
      known(place, index, kind, id, who);
  }

  /// `source`: keys, `practice`, `judgement` or `derived`, separated by ";", each perhaps with
  /// ": what for".
  void cited(const Place& place, std::string_view source, std::string_view who);

  Problems take() { return std::move(problems_); }

 private:
  Problems problems_;
  Pinpoint pinpoint_;
};

/// The cross-checks of work: checks, corrections, procedures, covers.
void cross_check_work(const Knowledge& own, References& references);

}  // namespace soot
