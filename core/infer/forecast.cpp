// What given causes would look like: the model read downwards, without evidence.
#include "core/infer/answer.hpp"
#include "core/infer/instances.hpp"

#include <cmath>
#include <vector>

namespace soot::infer {

double chance_of_symptom(const Network& network, std::size_t symptom, int cylinder,
                         const std::vector<Graded>& present) {
  const Symptom& here = network.symptoms[symptom];
  // Grown from the leak by what each cause adds: no 1 - (near 1) for a rare symptom.
  double chance = here.leak + here.imagined * (1 - here.leak);
  for (const Graded& graded : present) {
    if (graded.grade == 0 || !hears(cylinder, {graded.cause, graded.cylinder})) continue;
    for (const Link& link : here.links)
      if (link.cause == graded.cause)
        chance += (1 - chance) * link.strength[graded.grade - 1] * (1 - here.missed);
  }
  return chance;
}

Normal expected_reading(const Network& network, std::size_t quantity, int cylinder,
                        const std::vector<Graded>& present) {
  const Quantity& here = network.quantities[quantity];
  Normal result{here.nominal, 0};
  double variance = here.spread * here.spread;
  for (const Response& response : here.responses) {
    double common = 0, common_variance = 0, own = 0, own_variance = 0;
    for (const Graded& graded : present) {
      if (graded.grade == 0 || !hears(cylinder, {graded.cause, graded.cylinder})) continue;
      const std::size_t g = graded.grade - 1;
      for (const Effect& effect : network.causes[graded.cause].effects) {
        if (effect.term != response.term) continue;
        const bool engine_wide = network.causes[graded.cause].scope == Scope::engine;
        (engine_wide ? common : own) += effect.mean[g];
        (engine_wide ? common_variance : own_variance) += effect.sd[g] * effect.sd[g];
        if (!effect.scatter.empty() && cylinder > 0)
          own_variance += effect.scatter[g] * effect.scatter[g];
      }
    }
    const double slope = response.shift.slope_at(common);
    result.mean += response.shift.at(common) + slope * own;
    variance += slope * slope * (common_variance + own_variance);
  }
  result.sd = std::sqrt(variance);
  return result;
}

}  // namespace soot::infer
