#include "core/infer/sampling.hpp"

#include "core/infer/gibbs.hpp"
#include "core/infer/repeats.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <map>
#include <set>

namespace soot::infer {

namespace {

constexpr std::size_t walks = 8;
constexpr std::size_t fewest_rounds = 40, most_rounds = 4000;
/// Steps of all walks together: a few seconds.
constexpr double steps_in_all = 1.5e9;

/// Who touches what an instance touches: only these can stand for one another.
std::vector<std::vector<std::size_t>> rivals_of(const GibbsInput& input, const Evidence& evidence) {
  std::map<std::pair<bool, std::size_t>, std::vector<std::size_t>> touching;
  for (std::size_t i = 0; i < input.instances.size(); ++i) {
    for (const Touch& touch : input.reports.touches[i])
      touching[{false, touch.bit}].push_back(i);
    for (std::size_t r = 0; r < evidence.readings.size(); ++r)
      if (hears(evidence.readings[r].cylinder, input.instances[i]) &&
          reaches(input.network, input.instances[i].cause, evidence.readings[r].quantity))
        touching[{true, r}].push_back(i);
  }
  std::vector<std::set<std::size_t>> sets(input.instances.size());
  for (const auto& [what, who] : touching)
    for (const std::size_t a : who)
      for (const std::size_t b : who)
        if (a != b) sets[a].insert(b);
  std::vector<std::vector<std::size_t>> rivals;
  for (const std::set<std::size_t>& one : sets)
    rivals.emplace_back(one.begin(), one.end());
  return rivals;
}

/// Everything ready for walks; histories empty if the evidence is impossible.
struct Ground {
  Instances instances;
  double log_constant = 0;
  Evidence evidence;
  Reports reports;
  GibbsInput input;

  Ground(const Network& network, const Evidence& all)
      : instances(network),
        evidence(merge_repeats(all, log_constant)),
        reports(sort_reports(network, instances, all)),
        input{network, instances, evidence, reports, {}, {}, {}, {}, {}} {
    if (reports.impossible) return;
    for (std::size_t h = 0; h < network.histories.size(); ++h) {
      const double weight = all.history ? (*all.history == h ? 1 : 0) : network.history_prior[h];
      if (weight == 0) continue;
      Priors priors = absorb(network, instances, reports, h);
      if (!priors.possible) continue;
      input.histories.push_back(h);
      input.log_weight.push_back(std::log(weight) + priors.log_constant);
      input.priors.push_back(std::move(priors));
    }
    const ReadingState readings(network, instances, evidence);
    for (std::size_t i = 0; i < instances.size(); ++i)
      input.is_active.push_back(!reports.touches[i].empty() || readings.reaches(i));
    input.rivals = rivals_of(input, evidence);
  }
  Ground(const Ground&) = delete;
  Ground& operator=(const Ground&) = delete;

  std::size_t rounds() const {
    const double n = static_cast<double>(evidence.readings.size());
    double steps = 2 * n * n * n + 100;
    for (std::size_t i = 0; i < instances.size(); ++i) {
      if (!input.is_active[i]) continue;
      const double grades = static_cast<double>(input.priors.front().grade[i].size());
      steps += grades * 60 * static_cast<double>(reports.touches[i].size() + 1);
      for (const Effect& effect : input.network.causes[instances[i].cause].effects)
        steps += grades * 6 * n * (n + 10) *
                 (effect.scatter.empty() ? 1.0 : 1.0 + input.network.cylinders);
    }
    return static_cast<std::size_t>(std::clamp(steps_in_all / (steps * static_cast<double>(walks)),
                                               static_cast<double>(fewest_rounds),
                                               static_cast<double>(most_rounds)));
  }
};

Tally empty_tally(const Ground& ground) {
  Tally tally;
  for (const GradeRow& row : ground.input.priors.front().grade)
    tally.grade.emplace_back(row.size(), 0.0);
  tally.history.assign(ground.input.histories.size(), 0.0);
  tally.fault.assign(ground.input.network.instrument_faults.size(), 0.0);
  tally.not_listed.assign(ground.reports.bits.size(), 0.0);
  tally.any.assign(ground.input.network.causes.size(), 0.0);
  return tally;
}

/// A fifth of the rounds to forget the start, the rest counted.
Tally walk(const Ground& ground, std::size_t number,
           const std::function<void(const Gibbs&)>& see = {}) {
  Gibbs gibbs(ground.input, number + 1);
  Tally tally = empty_tally(ground);
  const std::size_t rounds = ground.rounds();
  for (std::size_t round = 0; round < rounds; ++round) {
    gibbs.sweep(round < rounds / 5 ? nullptr : &tally);
    if (round >= rounds / 5 && see) see(gibbs);
  }
  return tally;
}

struct Estimate {
  double mean = 0;
  double error = 0;
};

Estimate over_walks(const std::vector<Tally>& tallies,
                    const std::function<double(const Tally&)>& value) {
  Estimate estimate;
  for (const Tally& tally : tallies)
    estimate.mean += value(tally) / tally.steps / static_cast<double>(walks);
  double squares = 0;
  for (const Tally& tally : tallies) {
    const double off = value(tally) / tally.steps - estimate.mean;
    squares += off * off;
  }
  estimate.error = std::sqrt(squares / static_cast<double>(walks * (walks - 1)));
  return estimate;
}

void fill_idle(const Ground& ground, Posterior& answer) {
  for (std::size_t i = 0; i < ground.instances.size(); ++i) {
    if (ground.input.is_active[i]) continue;
    GradeRow& grade = answer.instances[i].grade;
    std::fill(grade.begin(), grade.end(), 0.0);
    for (std::size_t h = 0; h < ground.input.histories.size(); ++h)
      for (std::size_t g = 0; g < grade.size(); ++g)
        grade[g] += answer.history[ground.input.histories[h]] * ground.input.priors[h].grade[i][g];
  }
}

}  // namespace

Posterior sampled_posterior(const Network& network, const Evidence& evidence,
                            const std::string& reason) {
  const Ground ground(network, evidence);
  Posterior answer;
  answer.sampled = reason;
  answer.log_evidence = std::numeric_limits<double>::quiet_NaN();
  if (ground.input.histories.empty()) {
    answer.impossible = true;
    answer.log_evidence = -std::numeric_limits<double>::infinity();
    return answer;
  }
  std::vector<Tally> tallies;
  for (std::size_t number = 0; number < walks; ++number)
    tallies.push_back(walk(ground, number));
  const auto note = [&](const std::function<double(const Tally&)>& value) {
    const Estimate estimate = over_walks(tallies, value);
    answer.standard_error = std::max(answer.standard_error, estimate.error);
    return estimate.mean;
  };
  answer.history.assign(network.histories.size(), 0.0);
  for (std::size_t h = 0; h < ground.input.histories.size(); ++h)
    answer.history[ground.input.histories[h]] = note([&](const Tally& t) { return t.history[h]; });
  for (std::size_t i = 0; i < ground.instances.size(); ++i) {
    answer.instances.push_back({ground.instances[i].cause, ground.instances[i].cylinder, {}});
    for (std::size_t g = 0; g < ground.input.priors.front().grade[i].size(); ++g)
      answer.instances.back().grade.push_back(note([&](const Tally& t) { return t.grade[i][g]; }));
  }
  fill_idle(ground, answer);
  for (std::size_t cause = 0; cause < network.causes.size(); ++cause) {
    // A cause met in no state may still be likelier in one cylinder than "never".
    double any = note([&](const Tally& t) { return t.any[cause]; });
    const std::size_t first = ground.instances.first_of(cause);
    for (std::size_t i = first; i < first + ground.instances.count_of(cause); ++i)
      any = std::max(any, answer.instances[i].present());
    if (ground.instances.count_of(cause) == 1) any = answer.instances[first].present();
    answer.any.push_back(any);
    answer.none.push_back(1 - any);
  }
  for (std::size_t fault = 0; fault < network.instrument_faults.size(); ++fault)
    answer.instrument_wrong.push_back(note([&](const Tally& t) { return t.fault[fault]; }));
  for (std::size_t f = 0; f < evidence.findings.size(); ++f) {
    answer.not_listed.emplace_back();
    if (!evidence.findings[f].present) continue;
    const auto bit = ground.reports.bit_of[f];
    answer.not_listed.back() = bit ? note([&](const Tally& t) { return t.not_listed[*bit]; }) : 0;
  }
  return answer;
}

std::vector<Explanation> sampled_explanations(const Network& network, const Evidence& evidence,
                                              const ExplanationQuery& query) {
  const Ground ground(network, evidence);
  if (ground.input.histories.empty()) return {};
  std::map<std::vector<std::pair<std::size_t, std::size_t>>, double> met;
  double steps = 0;
  for (std::size_t number = 0; number < walks; ++number)
    walk(ground, number, [&](const Gibbs& gibbs) {
      std::vector<std::pair<std::size_t, std::size_t>> present;
      for (std::size_t i = 0; i < gibbs.grades().size(); ++i)
        if (gibbs.grades()[i] > 0 &&
            (query.of_interest.empty() || query.of_interest[ground.instances[i].cause]))
          present.emplace_back(i, gibbs.grades()[i]);
      met[present] += 1;
      steps += 1;
    });
  std::vector<Explanation> all;
  for (const auto& [present, count] : met) {
    all.push_back({count / steps, {}});
    for (const auto& [instance, grade] : present)
      all.back().present.push_back(
          {ground.instances[instance].cause, ground.instances[instance].cylinder, grade});
  }
  std::stable_sort(all.begin(), all.end(), [](const Explanation& a, const Explanation& b) {
    return a.probability > b.probability;
  });
  if (all.size() > query.count) all.resize(query.count);
  return all;
}

}  // namespace soot::infer
