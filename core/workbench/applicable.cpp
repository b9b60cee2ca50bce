#include "core/knowledge/cross_check.hpp"
#include "core/knowledge/loader.hpp"
#include "core/workbench/engine.hpp"

#include <algorithm>
#include <set>
#include <string_view>
#include <unordered_set>
#include <utility>

namespace soot {
namespace {

bool has_all(const Family& family, const std::vector<std::string>& needs) {
  return std::all_of(needs.begin(), needs.end(), [&](const auto& f) { return family.has(f); });
}

bool has_any(const Family& family, const std::vector<std::string>& features) {
  return std::any_of(features.begin(), features.end(),
                     [&](const auto& f) { return family.has(f); });
}

using Ids = std::unordered_set<std::string_view>;

// Views into the entries: the list must stay as it is from here on.
template <class Entry>
Ids ids_in(const std::vector<Entry>& list) {
  Ids ids;
  for (const Entry& entry : list)
    ids.insert(entry.id);
  return ids;
}

void keep(std::vector<std::string>& ids, const Ids& there) {
  std::erase_if(ids, [&](const std::string& id) { return !there.contains(id); });
}

// What one cylinder of several does to the whole engine, it does fully where there is no other.
void take_alone(Cause& cause) {
  for (Link& link : cause.links)
    if (!link.alone.empty()) link.strength = std::exchange(link.alone, {});
}

// Nobody reads of hand cranks or starting air on an engine that has none.
void drop_cautions(Knowledge& all, const Family& family) {
  std::erase_if(all.cautions, [&](const Caution& caution) {
    return !caution.with_any.empty() && !has_any(family, caution.with_any);
  });
  const Ids there = ids_in(all.cautions);
  for (Cause& cause : all.causes)
    keep(cause.cautions, there);
  for (Check& check : all.checks)
    keep(check.cautions, there);
  for (Correction& correction : all.corrections)
    keep(correction.cautions, there);
  for (Procedure& procedure : all.procedures)
    for (Step& step : procedure.steps)
      keep(step.cautions, there);
}

template <class Work>
void take_variants(std::vector<Work>& list, const Family& family) {
  for (Work& work : list)
    for (WorkVariant& variant : work.variants) {
      if (!family.has(variant.feature)) continue;
      if (variant.covers) work.covers = std::move(*variant.covers);
      if (variant.tools) work.tools = std::move(*variant.tools);
      if (variant.procedure) work.procedure = std::move(*variant.procedure);
      if constexpr (requires { work.sum; })
        if (variant.sum) work.sum = std::move(*variant.sum);
    }
  for (Work& work : list)
    work.variants.clear();
}

void take_variants(std::vector<Cover>& covers, const Family& family) {
  for (Cover& cover : covers) {
    for (CoverVariant& variant : cover.variants) {
      if (!family.has(variant.feature)) continue;
      cover.name = std::move(variant.name);
      cover.open_minutes = variant.open_minutes;
      cover.close_minutes = variant.close_minutes;
    }
    cover.variants.clear();
  }
}

void keep_sayings(std::vector<Procedure>& procedures, const Family& family) {
  const auto is_not_for = [&](const Saying& saying) {
    return !has_all(family, saying.needs) || has_any(family, saying.without);
  };
  for (Procedure& procedure : procedures) {
    std::erase_if(procedure.steps, [&](const Step& step) { return is_not_for(step.saying); });
    std::erase_if(procedure.means, is_not_for);
  }
}

std::set<std::string> procedures_in_use(const Knowledge& knowledge) {
  std::set<std::string> used;
  const auto look = [&](const auto& work) {
    used.insert(work.procedure);
    for (const WorkVariant& variant : work.variants)
      used.insert(variant.procedure.value_or(""));
  };
  for (const Check& check : knowledge.checks)
    look(check);
  for (const Correction& correction : knowledge.corrections)
    look(correction);
  return used;
}

}  // namespace

Result<Knowledge> applicable(const Knowledge& common, const Knowledge& own, const Family& family) {
  Problems problems = cross_check(common, own);
  if (has_errors(problems)) return tl::unexpected<Problems>(std::move(problems));
  Knowledge all = common;
  add_entries(all, own);

  const std::set<std::string> of_some_work = procedures_in_use(all);
  take_variants(all.covers, family);
  take_variants(all.checks, family);
  take_variants(all.corrections, family);
  keep_sayings(all.procedures, family);
  drop_cautions(all, family);
  std::erase_if(all.gates, [&](const Gate& gate) { return !has_all(family, gate.needs); });
  std::erase_if(all.causes, [&](const Cause& cause) {
    return !has_all(family, cause.needs) || has_any(family, cause.without);
  });
  const Ids causes = ids_in(all.causes);
  std::erase_if(all.symptoms, [&](const Symptom& s) { return !has_all(family, s.needs); });
  const Ids symptoms = ids_in(all.symptoms);
  for (Quantity& quantity : all.quantities)
    std::erase_if(quantity.shows,
                  [&](const Showing& showing) { return !symptoms.contains(showing.symptom); });
  for (Cause& cause : all.causes) {
    std::erase_if(cause.links, [&](const Link& link) { return !symptoms.contains(link.symptom); });
    if (family.cylinders == 1) take_alone(cause);
  }
  for (Correction& correction : all.corrections) {
    std::erase_if(correction.mends, [&](const Mend& m) { return !causes.contains(m.cause); });
    keep(correction.brings, causes);
  }
  std::erase_if(all.corrections, [&](const Correction& correction) {
    return correction.mends.empty() || !has_all(family, correction.needs);
  });
  const Ids corrections = ids_in(all.corrections);
  for (Cause& cause : all.causes)
    keep(cause.corrections, corrections);
  for (Check& check : all.checks)
    keep(check.answers, symptoms);
  std::erase_if(all.checks, [&](const Check& check) {
    return (check.answers.empty() && check.reads.empty()) || !has_all(family, check.needs) ||
           has_any(family, check.without);
  });
  const std::set<std::string> of_this_work = procedures_in_use(all);
  std::erase_if(all.procedures, [&](const Procedure& procedure) {
    return of_some_work.contains(procedure.id) && !of_this_work.contains(procedure.id);
  });
  return all;
}

}  // namespace soot
