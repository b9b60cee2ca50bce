#include "core/infer/chain.hpp"

#include <numeric>

namespace soot::infer {

namespace {

template <class Fire>
void sum_over_grades(Table& table, const std::vector<double>& prior,
                     const std::vector<Touch>& touches, Fire fire_grade) {
  const BitList places = all_bits(table.bits());
  Table sum = table;
  sum.scale(prior[0]);
  for (std::size_t g = 1; g < prior.size(); ++g) {
    if (prior[g] == 0) continue;
    Table fired = table;
    fired.scale(prior[g]);
    fire_grade(fired, touches, g, places);
    sum.add(fired);
  }
  table = std::move(sum);
}

}  // namespace

BitList all_bits(std::size_t count) {
  BitList bits(count);
  std::iota(bits.begin(), bits.end(), std::size_t{0});
  return bits;
}

Table closing_weights(const Reports& reports) {
  Table closing(reports.bits.size());
  for (std::size_t set = 0; set < closing.sets(); ++set) {
    closing[set] = 1;
    for (std::size_t bit = 0; bit < reports.bits.size(); ++bit)
      closing[set] *= (set >> bit & 1) ? reports.bits[bit].fired : reports.bits[bit].quiet;
  }
  return closing;
}

void fire_instance(Table& table, const std::vector<double>& prior,
                   const std::vector<Touch>& touches) {
  sum_over_grades(table, prior, touches, fire);
}

void fire_instance_adjoint(Table& after, const std::vector<double>& prior,
                           const std::vector<Touch>& touches) {
  sum_over_grades(after, prior, touches, fire_adjoint);
}

/// A wrong instrument of this group joins only tables that have none so far.
Pair join(const Pair& before, const Kernel& kernel, const BitList& bits) {
  Pair after{Table(before.calm.bits()), Table(before.calm.bits())};
  add_or(after.calm, before.calm, kernel.calm, bits);
  add_or(after.wrong, before.wrong, kernel.calm, bits);
  add_or(after.wrong, before.calm, kernel.wrong, bits);
  return after;
}

Pair join_adjoint(const Pair& after, const Kernel& kernel, const BitList& bits) {
  Pair before{Table(after.calm.bits()), Table(after.calm.bits())};
  add_or_adjoint(before.calm, after.calm, kernel.calm, bits);
  add_or_adjoint(before.calm, after.wrong, kernel.wrong, bits);
  add_or_adjoint(before.wrong, after.wrong, kernel.calm, bits);
  return before;
}

Kernel gradient_of(const Pair& before, const Pair& after, const BitList& bits) {
  Kernel gradient{Table(bits.size()), Table(bits.size())};
  add_or_gradient(gradient.calm, before.calm, after.calm, bits);
  add_or_gradient(gradient.calm, before.wrong, after.wrong, bits);
  add_or_gradient(gradient.wrong, before.calm, after.wrong, bits);
  return gradient;
}

}  // namespace soot::infer
