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

// Views of the entries' ids, which nothing here changes; each is taken when its list has lost all
// it is to lose, or the common knowledge has the entries too.
using Ids = std::unordered_set<std::string_view>;

template <class Entry>
Ids ids_in(const Entries<Entry>& list) {
  Ids ids;
  for (const Entry& entry : list)
    ids.insert(entry.id);
  return ids;
}

// Entries of which nothing is to be changed stay shared with the common knowledge.
template <class Entry, class Predicate, class Change>
void change_if(Entries<Entry>& list, Predicate needs_it, Change change) {
  for (std::size_t i = 0; i < list.size(); ++i)
    if (needs_it(list[i])) change(list.edit(i));
}

template <class Entry, class Item, class Predicate>
void drop_items(Entries<Entry>& list, std::vector<Item> Entry::*items, Predicate is_out) {
  change_if(
      list,
      [&](const Entry& entry) {
        return std::any_of((entry.*items).begin(), (entry.*items).end(), is_out);
      },
      [&](Entry& entry) { std::erase_if(entry.*items, is_out); });
}

/// Refers to `there`.
auto is_not_in(const Ids& there) {
  return [&there](const std::string& id) { return !there.contains(id); };
}

// What one cylinder of several does to the whole engine, it does fully where there is no other.
void take_alone(Entries<Cause>& causes) {
  const auto differs = [](const Link& link) { return !link.alone.empty(); };
  change_if(
      causes,
      [&](const Cause& cause) {
        return std::any_of(cause.links.begin(), cause.links.end(), differs);
      },
      [&](Cause& cause) {
        for (Link& link : cause.links)
          if (differs(link)) link.strength = std::exchange(link.alone, {});
      });
}

// Nobody reads of hand cranks or starting air on an engine that has none.
void drop_cautions(Knowledge& all, const Family& family) {
  all.cautions.erase_if([&](const Caution& caution) {
    return !caution.with_any.empty() && !has_any(family, caution.with_any);
  });
  const Ids there = ids_in(all.cautions);
  const auto is_out = is_not_in(there);
  drop_items(all.causes, &Cause::cautions, is_out);
  drop_items(all.checks, &Check::cautions, is_out);
  drop_items(all.corrections, &Correction::cautions, is_out);
  change_if(
      all.procedures,
      [&](const Procedure& procedure) {
        return std::any_of(procedure.steps.begin(), procedure.steps.end(), [&](const Step& step) {
          return std::any_of(step.cautions.begin(), step.cautions.end(), is_out);
        });
      },
      [&](Procedure& procedure) {
        for (Step& step : procedure.steps)
          std::erase_if(step.cautions, is_out);
      });
}

template <class Entry>
bool has_variants(const Entry& entry) {
  return !entry.variants.empty();
}

template <class Work>
void take_variants(Entries<Work>& list, const Family& family) {
  change_if(list, has_variants<Work>, [&](Work& work) {
    for (WorkVariant& variant : work.variants) {
      if (!family.has(variant.feature)) continue;
      if (variant.covers) work.covers = std::move(*variant.covers);
      if (variant.tools) work.tools = std::move(*variant.tools);
      if (variant.procedure) work.procedure = std::move(*variant.procedure);
      if constexpr (requires { work.sum; })
        if (variant.sum) work.sum = std::move(*variant.sum);
    }
    work.variants.clear();
  });
}

void take_variants(Entries<Cover>& covers, const Family& family) {
  change_if(covers, has_variants<Cover>, [&](Cover& cover) {
    for (CoverVariant& variant : cover.variants) {
      if (!family.has(variant.feature)) continue;
      cover.name = std::move(variant.name);
      cover.open_minutes = variant.open_minutes;
      cover.close_minutes = variant.close_minutes;
    }
    cover.variants.clear();
  });
}

void keep_sayings(Entries<Procedure>& procedures, const Family& family) {
  const auto is_not_for = [&](const Saying& saying) {
    return !has_all(family, saying.needs) || has_any(family, saying.without);
  };
  drop_items(procedures, &Procedure::steps,
             [&](const Step& step) { return is_not_for(step.saying); });
  drop_items(procedures, &Procedure::means, is_not_for);
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
  all.gates.erase_if([&](const Gate& gate) { return !has_all(family, gate.needs); });
  all.causes.erase_if([&](const Cause& cause) {
    return !has_all(family, cause.needs) || has_any(family, cause.without);
  });
  all.symptoms.erase_if([&](const Symptom& s) { return !has_all(family, s.needs); });
  if (family.cylinders == 1) take_alone(all.causes);
  const Ids causes = ids_in(all.causes);
  const Ids symptoms = ids_in(all.symptoms);
  const auto is_no_symptom = is_not_in(symptoms);
  drop_items(all.quantities, &Quantity::shows,
             [&](const Showing& showing) { return is_no_symptom(showing.symptom); });
  drop_items(all.causes, &Cause::links,
             [&](const Link& link) { return is_no_symptom(link.symptom); });
  drop_items(all.corrections, &Correction::mends,
             [&](const Mend& mend) { return !causes.contains(mend.cause); });
  drop_items(all.corrections, &Correction::brings, is_not_in(causes));
  all.corrections.erase_if([&](const Correction& correction) {
    return correction.mends.empty() || !has_all(family, correction.needs);
  });
  const Ids corrections = ids_in(all.corrections);
  drop_items(all.causes, &Cause::corrections, is_not_in(corrections));
  drop_items(all.checks, &Check::answers, is_no_symptom);
  all.checks.erase_if([&](const Check& check) {
    return (check.answers.empty() && check.reads.empty()) || !has_all(family, check.needs) ||
           has_any(family, check.without);
  });
  const std::set<std::string> of_this_work = procedures_in_use(all);
  all.procedures.erase_if([&](const Procedure& procedure) {
    return of_some_work.contains(procedure.id) && !of_this_work.contains(procedure.id);
  });
  return all;
}

}  // namespace soot
