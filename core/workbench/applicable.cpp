#include "core/knowledge/cross_check.hpp"
#include "core/knowledge/loader.hpp"
#include "core/workbench/engine.hpp"

#include <algorithm>

namespace soot {
namespace {

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

}  // namespace

Result<Knowledge> applicable(const Knowledge& common, const Knowledge& own, const Family& family) {
  Problems problems = cross_check(common, own);
  if (has_errors(problems)) return tl::unexpected<Problems>(std::move(problems));
  Knowledge all = common;
  add_entries(all, own);

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
