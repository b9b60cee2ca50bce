#include "core/plan/mending.hpp"

#include <algorithm>
#include <set>

namespace soot::plan {

CauseSet ascending(CauseSet causes) {
  std::sort(causes.begin(), causes.end());
  return causes;
}

std::vector<Remainder> remainders(const Correction& correction, const CauseSet& causes) {
  std::vector<Mend> hit;
  for (const Mend& mend : correction.mends)
    if (mend.chance > 0 && std::binary_search(causes.begin(), causes.end(), mend.cause))
      hit.push_back(mend);
  std::stable_sort(hit.begin(), hit.end(),
                   [](const Mend& a, const Mend& b) { return a.chance > b.chance; });
  std::vector<Remainder> found;
  CauseSet left = causes;
  double reached = 1;
  for (const Mend& mend : hit) {
    if (mend.chance < reached) found.push_back({left, reached - mend.chance});
    reached = mend.chance;
    left.erase(std::find(left.begin(), left.end(), mend.cause));
  }
  found.push_back({left, reached});
  return found;
}

std::vector<CauseSet> sets_left_by(const std::vector<Correction>& corrections,
                                   const std::vector<CauseSet>& sets) {
  std::set<CauseSet> known;
  std::vector<CauseSet> waiting;
  for (const CauseSet& set : sets) {
    waiting.push_back(ascending(set));
    known.insert(waiting.back());
  }
  std::vector<CauseSet> fresh;
  while (!waiting.empty()) {
    const CauseSet set = waiting.back();
    waiting.pop_back();
    for (const Correction& correction : corrections) {
      if (correction.work.access != Access::open) continue;
      for (const Remainder& left : remainders(correction, set)) {
        if (!known.insert(left.causes).second) continue;
        fresh.push_back(left.causes);
        waiting.push_back(left.causes);
      }
    }
  }
  std::sort(fresh.begin(), fresh.end());
  return fresh;
}

}  // namespace soot::plan
