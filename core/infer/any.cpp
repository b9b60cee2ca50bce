// "In any cylinder": the tables are carried twice, for "every instance of the cause sound so far"
// and "some present", from just before the cause's first instance to just after its last, and met
// with the kept backward tables there. All parts are positive: 1 - P(none) would lose the rare
// ones.
#include "core/infer/pass.hpp"

#include <algorithm>

namespace soot::infer {

void Pass::part(Table& sound, Table& present, std::size_t instance) const {
  const std::vector<double>& prior = priors_.grade[instance];
  fire_instance(present, prior, task_.reports.touches[instance]);
  for (std::size_t g = 1; g < prior.size(); ++g) {
    Table fired = sound;
    fired.scale(prior[g]);
    fire(fired, task_.reports.touches[instance], g, identity_);
    present.add(fired);
  }
  sound.scale(prior[0]);
}

Pass::Spread Pass::over_cylinders(std::size_t cause) const {
  const auto& plain = task_.partition.plain;
  const auto is_of = [&](const Unit& unit) {
    return task_.instances[plain[unit.first]].cause == cause;
  };
  const auto own = std::find_if(units_.begin(), units_.end(), is_of);
  std::size_t first_group = groups_.size();
  std::size_t last_group = 0;
  for (std::size_t g = 0; g < groups_.size(); ++g) {
    if (!groups_[g].has(cause)) continue;
    first_group = std::min(first_group, g);
    last_group = g + 1;
  }
  Spread spread{0, 1};
  if (own != units_.end() || last_group > 0) {
    const std::size_t bits = closing_.bits();
    Pair sound{Table(bits), Table(bits)};
    Pair present = sound;
    std::size_t from = first_group;
    if (own != units_.end()) {
      const std::size_t u = static_cast<std::size_t>(own - units_.begin());
      sound.calm = before_unit_[u];
      for (std::size_t i = 0; i < own->count; ++i)
        part(sound.calm, present.calm, plain[own->first + i]);
      if (last_group == 0)
        spread = {dot(present.calm, after_unit_[u]), dot(sound.calm, after_unit_[u])};
      for (std::size_t at = own->first + own->count; last_group > 0 && at < plain.size(); ++at) {
        fire_instance(sound.calm, priors_.grade[plain[at]], task_.reports.touches[plain[at]]);
        fire_instance(present.calm, priors_.grade[plain[at]], task_.reports.touches[plain[at]]);
      }
      from = 0;
    } else {
      sound = before_group_[first_group];
    }
    for (std::size_t g = from; g < last_group; ++g) {
      const BitList& place = groups_[g].group().bits;
      if (groups_[g].has(cause)) {
        const auto [without, with] = groups_[g].parted_kernel(cause);
        present = join(present, kernels_[g], place);
        const Pair newly = join(sound, with, place);
        present.calm.add(newly.calm);
        present.wrong.add(newly.wrong);
        sound = join(sound, without, place);
      } else {
        present = join(present, kernels_[g], place);
        sound = join(sound, kernels_[g], place);
      }
    }
    if (last_group > 0) {
      const Pair& after = after_group_[last_group - 1];
      spread = {dot(present.calm, after.calm) + dot(present.wrong, after.wrong),
                dot(sound.calm, after.calm) + dot(sound.wrong, after.wrong)};
    }
    spread.any /= evidence_;
    spread.none /= evidence_;
  }
  // Idle instances know of no evidence: given the history they stand apart.
  for (const std::size_t idle : task_.partition.idle) {
    if (task_.instances[idle].cause != cause) continue;
    double here = 0;
    for (std::size_t g = 1; g < priors_.grade[idle].size(); ++g)
      here += priors_.grade[idle][g];
    spread.any += spread.none * here;
    spread.none *= priors_.grade[idle][0];
  }
  return spread;
}

}  // namespace soot::infer
