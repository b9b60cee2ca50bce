#include "core/infer/shares.hpp"

#include "core/infer/or_table.hpp"

#include <algorithm>
#include <cmath>

namespace soot::infer {

namespace {
/// An error of 1e-11 of the rarest cause concerned, and of 1e-18 of the whole, moves no answer.
const double of_the_rarest = std::log(1e-11);
const double of_the_whole = std::log(1e-18);
}  // namespace

double log_add(double a, double b) {
  const double top = std::max(a, b);
  return top == nothing ? nothing : top + std::log1p(std::exp(std::min(a, b) - top));
}

double log_sum(std::vector<double>& logs) {
  const double top = greatest(logs.data(), logs.size());
  if (top == nothing) return nothing;
  for (double& one : logs)
    one -= top;
  exponentials(logs.data(), logs.size());
  return top + std::log(total(logs.data(), logs.size()));
}

Shares::Shares(const std::vector<CommonState>& states) : whole_(nothing) {
  for (const CommonState& state : states) {
    of_grade_.resize(state.grades.size());
    for (std::size_t c = 0; c < state.grades.size(); ++c)
      of_grade_[c].resize(std::max(of_grade_[c].size(), state.grades[c] + 1), nothing);
    if (state.fault) of_fault_.resize(std::max(of_fault_.size(), *state.fault + 1), nothing);
  }
}

void Shares::add(const CommonState& state, double log_mass) {
  whole_ = log_add(whole_, log_mass);
  for (std::size_t c = 0; c < state.grades.size(); ++c) {
    double& own = of_grade_[c][state.grades[c]];
    if (state.grades[c] > 0) own = log_add(own, log_mass);
  }
  if (state.fault) of_fault_[*state.fault] = log_add(of_fault_[*state.fault], log_mass);
}

double Shares::harmless(const std::vector<CommonState>& states,
                        const std::vector<std::size_t>& which) const {
  double least = whole_ + of_the_whole - of_the_rarest;
  for (const std::size_t s : which) {
    for (std::size_t c = 0; c < states[s].grades.size(); ++c)
      if (states[s].grades[c] > 0) least = std::min(least, of_grade_[c][states[s].grades[c]]);
    if (states[s].fault) least = std::min(least, of_fault_[*states[s].fault]);
  }
  return least + of_the_rarest;
}

}  // namespace soot::infer
