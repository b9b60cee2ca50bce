#include "core/plan/parting.hpp"

#include <algorithm>
#include <cmath>
#include <map>

namespace soot::plan {

namespace {

constexpr double named = 0.02;
constexpr std::size_t most_a_side = 3;

struct Profile {
  std::size_t cause = 0;
  double weight = 0;
  std::vector<double> outcome;  ///< P(outcome given the cause), once divided by the weight
};

std::vector<Profile> profiles(const Check& check, const Situation& situation,
                              const Belief& belief) {
  std::map<std::size_t, Profile> all;
  for (std::size_t index = 0; index < situation.hypotheses.size(); ++index) {
    const std::vector<double>& row = check.likelihood[index];
    for (const std::size_t cause : situation.hypotheses[index].causes) {
      Profile& profile = all[cause];
      profile.cause = cause;
      profile.weight += belief[index];
      profile.outcome.resize(row.size(), 0.0);
      for (std::size_t outcome = 0; outcome < row.size(); ++outcome)
        profile.outcome[outcome] += belief[index] * row[outcome];
    }
  }
  std::vector<Profile> heavy;
  for (auto& [cause, profile] : all) {
    if (profile.weight <= named) continue;
    for (double& chance : profile.outcome)
      chance /= profile.weight;
    heavy.push_back(profile);
  }
  std::stable_sort(heavy.begin(), heavy.end(),
                   [](const Profile& a, const Profile& b) { return a.weight > b.weight; });
  return heavy;
}

double distance(const Profile& a, const Profile& b) {
  double sum = 0;
  for (std::size_t outcome = 0; outcome < a.outcome.size(); ++outcome)
    sum += std::abs(a.outcome[outcome] - b.outcome[outcome]);
  return sum / 2;
}

/// The outcome that speaks most for the one and against the other.
std::size_t telling_outcome(const Profile& one, const Profile& other) {
  std::size_t best = 0;
  for (std::size_t outcome = 1; outcome < one.outcome.size(); ++outcome)
    if (one.outcome[outcome] - other.outcome[outcome] > one.outcome[best] - other.outcome[best])
      best = outcome;
  return best;
}

}  // namespace

Parting parted_by(const Check& check, const Situation& situation, const Belief& belief) {
  const std::vector<Profile> causes = profiles(check, situation, belief);
  const Profile* one = nullptr;
  const Profile* other = nullptr;
  double best = 0;
  for (std::size_t i = 0; i < causes.size(); ++i)
    for (std::size_t j = i + 1; j < causes.size(); ++j) {
      const double parts = causes[i].weight * causes[j].weight * distance(causes[i], causes[j]);
      if (parts <= best) continue;
      best = parts;
      one = &causes[i];
      other = &causes[j];
    }
  if (one == nullptr) return {};

  const std::size_t for_one = telling_outcome(*one, *other);
  const std::size_t for_other = telling_outcome(*other, *one);
  std::vector<double> overall(one->outcome.size(), 0.0);
  for (std::size_t index = 0; index < check.likelihood.size(); ++index)
    for (std::size_t outcome = 0; outcome < overall.size(); ++outcome)
      overall[outcome] += belief[index] * check.likelihood[index][outcome];
  for (std::size_t outcome = 0; outcome < check.rest.size(); ++outcome)
    overall[outcome] += belief[situation.hypotheses.size()] * check.rest[outcome];

  Parting parting{{one->cause}, {other->cause}};
  for (const Profile& cause : causes) {
    if (&cause == one || &cause == other) continue;
    const double raised_one = cause.outcome[for_one] * overall[for_other];
    const double raised_other = cause.outcome[for_other] * overall[for_one];
    if (raised_one == raised_other) continue;
    CauseSet& side = raised_one > raised_other ? parting.one : parting.other;
    if (side.size() < most_a_side) side.push_back(cause.cause);
  }
  return parting;
}

}  // namespace soot::plan
