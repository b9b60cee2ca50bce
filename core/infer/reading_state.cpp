#include "core/infer/reading_state.hpp"

#include "core/infer/partition.hpp"

#include <algorithm>
#include <cmath>

namespace soot::infer {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

namespace {

Index at(std::size_t i) {
  return static_cast<Index>(i);
}

/// A standard normal number between two bounds, by trial; far out by the exponential that covers
/// the tail (Robert, Statistics and Computing 5 (1995) 121).
double between(double lower, double upper, Dice& dice) {
  if (upper < 0) return -between(-upper, -lower, dice);
  constexpr int most_trials = 1000;
  for (int trial = 0; trial < most_trials; ++trial) {
    if (lower < 1) {
      const double wide = upper - lower;
      const double z = wide < 2 ? dice.real(lower, upper) : dice.normal();
      const double peak = std::max(0.0, lower);
      const bool kept = wide < 2 ? dice.real(0, 1) < std::exp(0.5 * (peak * peak - z * z))
                                 : z >= lower && z <= upper;
      if (kept) return z;
    } else {
      const double rate = 0.5 * (lower + std::sqrt(lower * lower + 4));
      const double z = lower - std::log(1 - dice.real(0, 1)) / rate;
      if (z <= upper && dice.real(0, 1) < std::exp(-0.5 * (z - rate) * (z - rate))) return z;
    }
  }
  return lower;  // the interval is too narrow to matter where in it
}

}  // namespace

ReadingState::ReadingState(const Network& network, const Instances& instances,
                           const Evidence& evidence)
    : network_(network),
      instances_(instances),
      readings_(evidence.readings),
      reaches_(instances.size()),
      common_(network.terms.size(), 0.0),
      curved_(network.terms.size()) {
  for (std::size_t i = 0; i < instances.size(); ++i)
    reaches_[i] = std::any_of(readings_.begin(), readings_.end(), [&](const Reading& r) {
      return hears(r.cylinder, instances[i]) &&
             infer::reaches(network, instances[i].cause, r.quantity);
    });
  for (const Quantity& quantity : network.quantities)
    for (const Response& response : quantity.responses)
      if (!response.shift.is_straight()) curved_[response.term] = true;
  value_.resize(at(readings_.size()));
  for (std::size_t r = 0; r < readings_.size(); ++r) {
    const Reading& reading = readings_[r];
    const double nominal = network.quantities[reading.quantity].nominal + reading.shift;
    value_(at(r)) = std::clamp(nominal, reading.lower, reading.upper);
  }
  set_sound();
}

bool ReadingState::shifts_curve(std::size_t instance) const {
  if (!reaches_[instance] || instances_[instance].cylinder != 0) return false;
  const auto& effects = network_.causes[instances_[instance].cause].effects;
  return std::any_of(effects.begin(), effects.end(),
                     [&](const Effect& effect) { return curved_[effect.term]; });
}

double ReadingState::log_density() const {
  const VectorXd off = value_ - mean_;
  double log = -0.5 * off.dot(precision_ * off);
  const MatrixXd lower = precision_.llt().matrixL();
  for (Index i = 0; i < lower.rows(); ++i)
    log += std::log(lower(i, i));
  return log;
}

double ReadingState::slope(std::size_t reading, std::size_t term) const {
  for (const Response& response : network_.quantities[readings_[reading].quantity].responses)
    if (response.term == term) return response.shift.slope_at(common_[term]);
  return 0;
}

/// Every cause sound, save that curves are taken at the present engine-wide shift.
void ReadingState::set_sound() {
  const std::size_t n = readings_.size();
  mean_.resize(at(n));
  MatrixXd covariance = MatrixXd::Zero(at(n), at(n));
  for (std::size_t i = 0; i < n; ++i) {
    const Quantity& quantity = network_.quantities[readings_[i].quantity];
    mean_(at(i)) = quantity.nominal + readings_[i].shift;
    for (const Response& response : quantity.responses)
      if (curved_[response.term])
        mean_(at(i)) += response.shift.at(common_[response.term]) -
                        response.shift.slope_at(common_[response.term]) * common_[response.term];
    for (std::size_t j = 0; j < n; ++j)
      if (readings_[i].quantity == readings_[j].quantity &&
          readings_[i].cylinder == readings_[j].cylinder)
        covariance(at(i), at(j)) = quantity.spread * quantity.spread;
    covariance(at(i), at(i)) += readings_[i].sd * readings_[i].sd;
  }
  precision_ = covariance.llt().solve(MatrixXd::Identity(at(n), at(n)));
}

ReadingState::Change ReadingState::change_of(std::size_t instance, std::size_t grade) const {
  const std::size_t n = readings_.size();
  Change change{VectorXd::Zero(at(n)), MatrixXd(at(n), 0)};
  if (grade == 0) return change;
  const InstanceKey& key = instances_[instance];
  for (const Effect& effect : network_.causes[key.cause].effects) {
    VectorXd load = VectorXd::Zero(at(n));
    for (std::size_t r = 0; r < n; ++r)
      if (hears(readings_[r].cylinder, key)) load(at(r)) = slope(r, effect.term);
    change.mean += effect.mean[grade - 1] * load;
    const auto add_column = [&](const VectorXd& column) {
      change.columns.conservativeResize(Eigen::NoChange, change.columns.cols() + 1);
      change.columns.rightCols(1) = column;
    };
    if (effect.sd[grade - 1] > 0) add_column(effect.sd[grade - 1] * load);
    if (effect.scatter.empty() || effect.scatter[grade - 1] == 0) continue;
    for (int cylinder = 1; cylinder <= network_.cylinders; ++cylinder) {
      VectorXd own = VectorXd::Zero(at(n));
      for (std::size_t r = 0; r < n; ++r)
        if (readings_[r].cylinder == cylinder) own(at(r)) = load(at(r));
      add_column(effect.scatter[grade - 1] * own);
    }
  }
  return change;
}

ReadingState::Change ReadingState::change_of_fault(std::size_t fault) const {
  const InstrumentFault& wrong = network_.instrument_faults[fault];
  VectorXd load = VectorXd::Zero(at(readings_.size()));
  for (std::size_t r = 0; r < readings_.size(); ++r)
    if (readings_[r].quantity == wrong.quantity) load(at(r)) = 1;
  return {wrong.mean * load, wrong.sd * load};
}

void ReadingState::apply(const Change& change, double sign) {
  mean_ += sign * change.mean;
  if (change.columns.cols() == 0) return;
  const MatrixXd moved = precision_ * change.columns;
  const MatrixXd small = MatrixXd::Identity(change.columns.cols(), change.columns.cols()) +
                         sign * change.columns.transpose() * moved;
  precision_ -= sign * moved * small.ldlt().solve(moved.transpose());
}

double ReadingState::log_density_with(const Change& change) const {
  const VectorXd off = value_ - mean_ - change.mean;
  const VectorXd weighed = precision_ * off;
  double log = -0.5 * off.dot(weighed);
  if (change.columns.cols() == 0) return log;
  const MatrixXd small = MatrixXd::Identity(change.columns.cols(), change.columns.cols()) +
                         change.columns.transpose() * precision_ * change.columns;
  const Eigen::LLT<MatrixXd> factor(small);
  const VectorXd along = change.columns.transpose() * weighed;
  log += 0.5 * along.dot(factor.solve(along));
  const MatrixXd lower = factor.matrixL();
  for (Index i = 0; i < lower.rows(); ++i)
    log -= std::log(lower(i, i));
  return log;
}

double ReadingState::log_density_with(std::size_t instance, std::size_t grade) const {
  return log_density_with(change_of(instance, grade));
}
double ReadingState::log_density_with_fault(std::size_t fault) const {
  return log_density_with(change_of_fault(fault));
}
void ReadingState::remove(std::size_t instance, std::size_t grade) {
  apply(change_of(instance, grade), -1);
}
void ReadingState::add(std::size_t instance, std::size_t grade) {
  apply(change_of(instance, grade), 1);
}
void ReadingState::remove_fault(std::size_t fault) {
  apply(change_of_fault(fault), -1);
}
void ReadingState::add_fault(std::size_t fault) {
  apply(change_of_fault(fault), 1);
}

bool ReadingState::takes_part(std::size_t fault) const {
  return std::any_of(readings_.begin(), readings_.end(), [&](const Reading& r) {
    return r.quantity == network_.instrument_faults[fault].quantity;
  });
}

void ReadingState::draw_bounds(Dice& dice) {
  for (std::size_t r = 0; r < readings_.size(); ++r) {
    const Reading& reading = readings_[r];
    if (reading.is_exact()) continue;
    const double sd = 1 / std::sqrt(precision_(at(r), at(r)));
    const double mean = value_(at(r)) - precision_.row(at(r)).dot(value_ - mean_) * sd * sd;
    value_(at(r)) = std::clamp(
        mean + sd * between((reading.lower - mean) / sd, (reading.upper - mean) / sd, dice),
        reading.lower, reading.upper);
  }
}

void ReadingState::refresh(const std::vector<std::size_t>& grades,
                           const std::vector<std::size_t>& faults) {
  std::fill(common_.begin(), common_.end(), 0.0);
  for (std::size_t i = 0; i < grades.size(); ++i)
    if (grades[i] > 0 && instances_[i].cylinder == 0)
      for (const Effect& effect : network_.causes[instances_[i].cause].effects)
        common_[effect.term] += effect.mean[grades[i] - 1];
  set_sound();
  for (std::size_t i = 0; i < grades.size(); ++i)
    if (grades[i] > 0 && reaches_[i]) add(i, grades[i]);
  for (const std::size_t fault : faults)
    add_fault(fault);
}

}  // namespace soot::infer
