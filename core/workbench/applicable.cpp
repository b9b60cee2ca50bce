#include "core/knowledge/cross_check.hpp"
#include "core/workbench/engine.hpp"

#include <algorithm>

namespace soot {
namespace {

template <class Entry>
void add_all(std::vector<Entry>& list, const std::vector<Entry>& more) {
  list.insert(list.end(), more.begin(), more.end());
}

bool has_all(const Family& family, const std::vector<std::string>& needs) {
  return std::all_of(needs.begin(), needs.end(), [&](const auto& f) { return family.has(f); });
}

bool has_any(const Family& family, const std::vector<std::string>& features) {
  return std::any_of(features.begin(), features.end(),
                     [&](const auto& f) { return family.has(f); });
}

template <class Entry>
void keep_ids(std::vector<std::string>& ids, const std::vector<Entry>& list) {
  std::erase_if(ids, [&](const std::string& id) { return find_id(list, id) == nullptr; });
}

// Nobody reads of hand cranks or starting air on an engine that has none.
void drop_cautions(Knowledge& all, const Family& family) {
  std::erase_if(all.cautions, [&](const Caution& caution) {
    return !caution.with_any.empty() && !has_any(family, caution.with_any);
  });
  for (Cause& cause : all.causes)
    keep_ids(cause.cautions, all.cautions);
  for (Check& check : all.checks)
    keep_ids(check.cautions, all.cautions);
  for (Correction& correction : all.corrections)
    keep_ids(correction.cautions, all.cautions);
  for (Procedure& procedure : all.procedures)
    for (Step& step : procedure.steps)
      keep_ids(step.cautions, all.cautions);
}

}  // namespace

Result<Knowledge> applicable(const Knowledge& common, const Knowledge& own, const Family& family) {
  Knowledge all = common;
  add_all(all.terms, own.terms);
  add_all(all.symptoms, own.symptoms);
  add_all(all.quantities, own.quantities);
  add_all(all.causes, own.causes);
  add_all(all.checks, own.checks);
  add_all(all.corrections, own.corrections);
  add_all(all.procedures, own.procedures);
  add_all(all.cautions, own.cautions);
  add_all(all.gates, own.gates);
  add_all(all.covers, own.covers);
  add_all(all.tools, own.tools);
  add_all(all.sources, own.sources);
  Problems problems = cross_check(all);
  if (has_errors(problems)) return tl::unexpected<Problems>(std::move(problems));

  drop_cautions(all, family);
  std::erase_if(all.gates, [&](const Gate& gate) { return !has_all(family, gate.needs); });
  std::erase_if(all.causes, [&](const Cause& cause) {
    return !has_all(family, cause.needs) || has_any(family, cause.without);
  });
  std::erase_if(all.symptoms, [&](const Symptom& s) { return !has_all(family, s.needs); });
  for (Quantity& quantity : all.quantities)
    std::erase_if(quantity.shows, [&](const Showing& showing) {
      return find_id(all.symptoms, showing.symptom) == nullptr;
    });
  for (Cause& cause : all.causes)
    std::erase_if(cause.links,
                  [&](const Link& link) { return find_id(all.symptoms, link.symptom) == nullptr; });
  std::erase_if(all.corrections, [&](const Correction& correction) {
    const bool mends_any =
        std::any_of(correction.mends.begin(), correction.mends.end(),
                    [&](const Mend& mend) { return find_id(all.causes, mend.cause) != nullptr; });
    return !mends_any || !has_all(family, correction.needs);
  });
  for (Correction& correction : all.corrections) {
    std::erase_if(correction.mends,
                  [&](const Mend& m) { return find_id(all.causes, m.cause) == nullptr; });
    keep_ids(correction.brings, all.causes);
  }
  for (Cause& cause : all.causes)
    keep_ids(cause.corrections, all.corrections);
  for (Check& check : all.checks)
    keep_ids(check.answers, all.symptoms);
  std::erase_if(all.checks, [&](const Check& check) {
    return (check.answers.empty() && check.reads.empty()) || !has_all(family, check.needs);
  });
  return all;
}

}  // namespace soot
