#include "core/infer/task.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace soot::infer {

namespace {

Result<double> log_evidence(const Network& network, const Evidence& evidence,
                            const Limits& limits) {
  const auto task = prepare(network, evidence, limits);
  if (!task) return pass_on(task);
  return log_evidence_of(*task);
}

/// P(item given the rest) from two logs; an impossible rest says nothing about the item.
double given(double with, double without) {
  return std::isinf(without) ? 1 : std::min(1.0, std::exp(with - without));
}

/// Two-sided tail of an exact reading given all else; its density would depend on the unit.
Result<double> tail(const Network& network, const Evidence& evidence, std::size_t index,
                    double without, const Limits& limits) {
  double least = std::numeric_limits<double>::infinity();
  for (const bool below : {true, false}) {
    Evidence side = evidence;
    Reading& reading = side.readings[index];
    (below ? reading.lower : reading.upper) =
        std::numeric_limits<double>::infinity() * (below ? -1 : 1);
    const auto log_side = log_evidence(network, side, limits);
    if (!log_side) return pass_on(log_side);
    least = std::min(least, given(*log_side, without));
  }
  return std::min(1.0, 2 * least);
}

}  // namespace

Result<std::optional<WorstFit>> worst_fit(const Network& network, const Evidence& evidence,
                                          const Limits& limits) {
  if (const auto sound = check(network, evidence); !sound) return pass_on(sound);
  const auto whole = log_evidence(network, evidence, limits);
  if (!whole) return pass_on(whole);
  std::optional<WorstFit> worst;
  for (std::size_t i = 0; i < evidence.findings.size() + evidence.readings.size(); ++i) {
    WorstFit here;
    here.is_reading = i >= evidence.findings.size();
    here.index = here.is_reading ? i - evidence.findings.size() : i;
    const auto place = static_cast<std::ptrdiff_t>(here.index);
    Evidence rest = evidence;
    if (here.is_reading)
      rest.readings.erase(rest.readings.begin() + place);
    else
      rest.findings.erase(rest.findings.begin() + place);
    const auto without = log_evidence(network, rest, limits);
    if (!without) return pass_on(without);
    here.probability = given(*whole, *without);
    if (here.is_reading && evidence.readings[here.index].is_exact() && !std::isinf(*without)) {
      const auto both = tail(network, evidence, here.index, *without, limits);
      if (!both) return pass_on(both);
      here.probability = *both;
    }
    if (!worst || here.probability < worst->probability) worst = here;
  }
  return worst;
}

}  // namespace soot::infer
