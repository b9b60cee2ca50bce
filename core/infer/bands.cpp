#include "core/infer/bands.hpp"

#include "core/infer/interval.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace soot::infer {

namespace {

/// What was left out may be such a share of a band.
constexpr double most_left_out = 1e-9, most_left_out_coarse = 1e-2;

}  // namespace

std::optional<Bands> Bands::of(const Network& network, const Evidence& evidence, Reading reading,
                               const Limits& limits, const Task& before) {
  if (std::any_of(evidence.readings.begin(), evidence.readings.end(),
                  [](const Reading& one) { return one.is_open(); }))
    return std::nullopt;
  Evidence after = evidence;
  reading.upper = std::numeric_limits<double>::infinity();
  reading.lower = -reading.upper;
  after.readings.push_back(reading);
  auto task = prepare(network, after, limits, &before);
  if (!task || task->impossible()) return std::nullopt;
  Bands bands(std::move(*task), limits);
  const Task& open = *bands.task_;
  const auto& groups = open.plan->groups;
  const auto own = std::find_if(groups.begin(), groups.end(),
                                [](const auto& group) { return group->nodes.open.has_value(); });
  if (own == groups.end()) return std::nullopt;
  bands.group_ = static_cast<std::size_t>(own - groups.begin());
  for (std::size_t h = 0; h < open.histories.size(); ++h)
    bands.open_.emplace_back(open, open.priors[h], open.log_weight[h]);
  return bands;
}

std::optional<Outcome> Bands::outcome(double lower, double upper, double log_whole) const {
  const Nodes& nodes = task_->plan->groups[group_]->nodes;
  const OpenReading& open = *nodes.open;
  Nodes::Numbers banded = nodes.likelihood[open.block];
  for (std::size_t i = 0; i < banded.size(); ++i)
    if (banded[i] > 0)
      banded[i] *=
          interval((lower - open.mean[i]) / open.sd[i], (upper - open.mean[i]) / open.sd[i]);
  Outcome outcome;
  outcome.posterior = mixed_posterior(
      *task_, [&](std::size_t h) { return Pass(open_[h], group_, banded); }, by_cause_);
  if (outcome.posterior.impossible) return std::nullopt;
  outcome.probability = std::exp(outcome.posterior.log_evidence - log_whole);
  double left_out = 0;
  for (const auto& group : task_->plan->groups)
    left_out += group->nodes.left_out;
  const double most = task_->tolerance > 0 ? most_left_out_coarse : most_left_out;
  if (!(left_out <= most * outcome.probability)) return std::nullopt;
  outcome.posterior.error_bound += left_out * (1 / outcome.probability - 1);
  return outcome;
}

}  // namespace soot::infer
