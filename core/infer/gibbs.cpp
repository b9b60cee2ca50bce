#include "core/infer/gibbs.hpp"

#include <algorithm>
#include <cmath>

namespace soot::infer {

namespace {
constexpr int offers_a_round = 8;
}

Gibbs::Gibbs(const GibbsInput& input, std::uint64_t seed)
    : input_(input),
      dice_(seed),
      readings_(input.network, input.instances, input.evidence),
      grade_(input.instances.size(), 0),
      log_quiet_(input.reports.bits.size(), 0.0),
      certain_(input.reports.bits.size(), 0) {
  history_ = dice_.below(input.histories.size());
}

/// Log weight of the bits an instance touches, if it had this grade and is now taken out.
double Gibbs::log_bits(std::size_t instance, std::size_t grade) const {
  double log = 0;
  for (const Touch& touch : input_.reports.touches[instance]) {
    const Bit& bit = input_.reports.bits[touch.bit];
    const double quiet =
        certain_[touch.bit] > 0 ? 0 : std::exp(log_quiet_[touch.bit]) * (1 - touch.strength[grade]);
    // A walk may start where the evidence cannot be, and must find its way out.
    constexpr double hardly = 1e-200;
    log += std::log(std::max(hardly, bit.fired * (1 - quiet) + bit.quiet * quiet));
  }
  return log;
}

void Gibbs::take_out(std::size_t instance) {
  const std::size_t grade = grade_[instance];
  grade_[instance] = 0;
  if (grade == 0) return;
  for (const Touch& touch : input_.reports.touches[instance]) {
    if (touch.strength[grade] == 1) --certain_[touch.bit];
    if (touch.strength[grade] < 1) log_quiet_[touch.bit] -= std::log1p(-touch.strength[grade]);
  }
  if (readings_.reaches(instance) && !readings_.shifts_curve(instance))
    readings_.remove(instance, grade);
}

void Gibbs::put_in(std::size_t instance, std::size_t grade) {
  grade_[instance] = grade;
  for (const Touch& touch : input_.reports.touches[instance]) {
    if (touch.strength[grade] == 1) ++certain_[touch.bit];
    if (touch.strength[grade] < 1) log_quiet_[touch.bit] += std::log1p(-touch.strength[grade]);
  }
  if (readings_.shifts_curve(instance))
    readings_.refresh(grade_, faults());
  else if (grade > 0 && readings_.reaches(instance))
    readings_.add(instance, grade);
}

/// Of every grade of an instance taken out, given all else.
std::vector<double> Gibbs::log_chances(std::size_t instance) {
  const GradeRow& prior = input_.priors[history_].grade[instance];
  std::vector<double> logs;
  for (std::size_t g = 0; g < prior.size(); ++g) {
    double log = std::log(prior[g]) + log_bits(instance, g);
    if (prior[g] > 0 && readings_.shifts_curve(instance)) {
      std::vector<std::size_t> tried = grade_;
      tried[instance] = g;
      readings_.refresh(tried, faults());
      log += readings_.log_density();
    } else if (prior[g] > 0 && readings_.reaches(instance)) {
      log += readings_.log_density_with(instance, g);
    }
    logs.push_back(log);
  }
  return logs;
}

/// `logs` become probabilities.
std::size_t Gibbs::draw(std::vector<double>& logs) {
  const double top = *std::max_element(logs.begin(), logs.end());
  double sum = 0;
  for (double& one : logs)
    sum += one = std::isinf(top) ? 1 : std::exp(one - top);
  double left = dice_.real(0, 1) * sum;
  std::size_t drawn = logs.size();
  for (std::size_t i = 0; i < logs.size(); ++i) {
    left -= logs[i];
    if (drawn == logs.size() && left < 0) drawn = i;
    logs[i] /= sum;
  }
  return std::min(drawn, logs.size() - 1);
}

void Gibbs::update(std::size_t instance, Tally* tally) {
  take_out(instance);
  std::vector<double> chances = log_chances(instance);
  const std::size_t grade = draw(chances);
  if (tally != nullptr)
    for (std::size_t g = 0; g < chances.size(); ++g)
      tally->grade[instance][g] += chances[g];
  put_in(instance, grade);
}

/// Log weight of one of two, both taken out, at a grade, against both being sound.
double Gibbs::log_alone(std::size_t instance, std::size_t grade) const {
  const GradeRow& prior = input_.priors[history_].grade[instance];
  return std::log(prior[grade]) - std::log(prior[0]) + log_bits(instance, grade) -
         log_bits(instance, 0) +
         readings_.log_density_with(instance, readings_.reaches(instance) ? grade : 0);
}

/// Offers a present cause's place to a rival that is sound (Metropolis and Hastings): so one gives
/// way to the other without passing through a state where neither or both are there.
void Gibbs::offer_place(std::size_t present) {
  const std::vector<std::size_t>& rivals = input_.rivals[present];
  const std::size_t rival = rivals[dice_.below(rivals.size())];
  // Two that bend the readings' curve are compared one at a time only.
  if (grade_[rival] > 0 || readings_.shifts_curve(present) || readings_.shifts_curve(rival)) return;
  const std::size_t before = grade_[present];
  const auto& priors = input_.priors[history_].grade;
  const auto chance = [&](std::size_t instance, std::size_t grade) {
    double above = 0;
    for (std::size_t g = 1; g < priors[instance].size(); ++g)
      above += priors[instance][g];
    return priors[instance][grade] / above;
  };
  double left = dice_.real(0, 1);
  std::size_t after = 1;
  while (after + 1 < priors[rival].size() && (left -= chance(rival, after)) > 0)
    ++after;
  if (!(priors[rival][after] > 0) || !(priors[present][0] > 0)) return;
  take_out(present);
  const double log_ratio = log_alone(rival, after) - log_alone(present, before) +
                           std::log(chance(present, before) / chance(rival, after)) +
                           std::log(static_cast<double>(rivals.size()) /
                                    static_cast<double>(input_.rivals[rival].size()));
  if (std::log(dice_.real(0, 1)) < log_ratio)
    put_in(rival, after);
  else
    put_in(present, before);
}

void Gibbs::update_history(Tally* tally) {
  std::vector<double> logs = input_.log_weight;
  for (std::size_t h = 0; h < logs.size(); ++h)
    for (std::size_t i = 0; i < grade_.size(); ++i)
      if (input_.is_active[i]) logs[h] += std::log(input_.priors[h].grade[i][grade_[i]]);
  history_ = draw(logs);
  if (tally != nullptr)
    for (std::size_t h = 0; h < logs.size(); ++h)
      tally->history[h] += logs[h];
}

std::vector<std::size_t> Gibbs::faults() const {
  if (!fault_) return {};
  return {*fault_};
}

void Gibbs::update_fault(Tally* tally) {
  std::vector<std::size_t> entries;
  double none = 1;
  for (std::size_t f = 0; f < input_.network.instrument_faults.size(); ++f)
    if (readings_.takes_part(f)) {
      entries.push_back(f);
      none -= input_.network.instrument_faults[f].prior;
    }
  if (entries.empty()) return;
  if (fault_) readings_.remove_fault(*fault_);
  std::vector<double> logs{std::log(std::max(0.0, none)) + readings_.log_density_with(0, 0)};
  for (const std::size_t f : entries)
    logs.push_back(std::log(input_.network.instrument_faults[f].prior) +
                   readings_.log_density_with_fault(f));
  const std::size_t drawn = draw(logs);
  fault_.reset();
  if (drawn > 0) fault_ = entries[drawn - 1];
  if (fault_) readings_.add_fault(*fault_);
  if (tally != nullptr)
    for (std::size_t k = 0; k < entries.size(); ++k)
      tally->fault[entries[k]] += logs[k + 1];
}

void Gibbs::count_rest(Tally& tally) const {
  tally.steps += 1;
  std::vector<bool> any(input_.network.causes.size());
  for (std::size_t i = 0; i < grade_.size(); ++i)
    if (grade_[i] > 0) any[input_.instances[i].cause] = true;
  for (std::size_t cause = 0; cause < any.size(); ++cause)
    tally.any[cause] += any[cause] ? 1 : 0;
  for (std::size_t b = 0; b < log_quiet_.size(); ++b) {
    const Bit& bit = input_.reports.bits[b];
    const double quiet = certain_[b] > 0 ? 0 : std::exp(log_quiet_[b]);
    tally.not_listed[b] += bit.leak_only * quiet / (bit.fired * (1 - quiet) + bit.quiet * quiet);
  }
}

void Gibbs::sweep(Tally* tally) {
  readings_.refresh(grade_, faults());
  // Made anew: sums and differences of logs stray.
  std::fill(log_quiet_.begin(), log_quiet_.end(), 0.0);
  for (std::size_t i = 0; i < grade_.size(); ++i)
    if (grade_[i] > 0)
      for (const Touch& touch : input_.reports.touches[i])
        if (touch.strength[grade_[i]] < 1)
          log_quiet_[touch.bit] += std::log1p(-touch.strength[grade_[i]]);
  for (std::size_t i = 0; i < grade_.size(); ++i)
    if (input_.is_active[i]) update(i, tally);
  for (int offer = 0; offer < offers_a_round; ++offer) {
    std::vector<std::size_t> present;
    for (std::size_t i = 0; i < grade_.size(); ++i)
      if (grade_[i] > 0 && input_.is_active[i]) present.push_back(i);
    if (present.empty()) break;
    const std::size_t one = present[dice_.below(present.size())];
    if (!input_.rivals[one].empty()) offer_place(one);
  }
  update_history(tally);
  update_fault(tally);
  readings_.draw_bounds(dice_);
  if (tally != nullptr) count_rest(*tally);
}

}  // namespace soot::infer
