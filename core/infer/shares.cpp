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
  const auto [less, top] = std::minmax(a, b);
  return less == nothing ? top : top + std::log1p(std::exp(less - top));
}

double log_sum(double* logs, std::size_t count) {
  const double top = greatest(logs, count);
  if (top == nothing) return nothing;
  for (std::size_t i = 0; i < count; ++i)
    logs[i] -= top;
  exponentials(logs, count);
  return top + std::log(total(logs, count));
}

double log_sum(std::vector<double>& logs) {
  return log_sum(logs.data(), logs.size());
}

Tail tail_of(std::vector<double>& logs, double harmless) {
  std::sort(logs.begin(), logs.end());
  Tail tail;
  std::size_t at = 0;
  for (; at + 1 < logs.size(); ++at) {
    const double more = log_add(tail.dropped, logs[at]);
    if (more > harmless) break;
    tail.dropped = more;
  }
  tail.least = logs[at];
  return tail;
}

Shares::Shares(const Commons& commons) : whole_(nothing), of_fault_(commons.faults(), nothing) {
  for (std::size_t c = 0; c < commons.grades().members(); ++c)
    of_grade_.emplace_back(commons.grades().radix(c), nothing);
}

void Shares::add(const CommonState& state, double log_mass) {
  whole_ = log_add(whole_, log_mass);
  for (std::size_t c = 0; c < state.grades.size(); ++c) {
    double& own = of_grade_[c][state.grades[c]];
    if (state.grades[c] > 0) own = log_add(own, log_mass);
  }
  if (state.fault) of_fault_[*state.fault] = log_add(of_fault_[*state.fault], log_mass);
}

double Shares::harmless(const std::vector<CommonState>& states) const {
  double least = whole_ + of_the_whole - of_the_rarest;
  for (const CommonState& state : states) {
    for (std::size_t c = 0; c < state.grades.size(); ++c)
      if (state.grades[c] > 0) least = std::min(least, of_grade_[c][state.grades[c]]);
    if (state.fault) least = std::min(least, of_fault_[*state.fault]);
  }
  return least + of_the_rarest;
}

}  // namespace soot::infer
