#include "core/plan/leaf.hpp"

#include <algorithm>

namespace soot::plan {

namespace {
constexpr double no_chance = 1e-9;   // of mending anything, or of being sound
constexpr double all_done = 1e-7;    // chance that it still runs wrong
constexpr double same_cost = 1e-12;  // two ways of stopping that cost the same
}  // namespace

const Leaf::Prices& Leaf::prices(const Configuration& now) {
  const auto [place, fresh] = prices_.try_emplace(now);
  Prices& made = place->second;
  if (!fresh) return made;
  made.run = tables_.run.cost + tables_.change_cost(tables_.run, now);
  for (const CorrectionTable& correction : tables_.corrections) {
    const Need& need = correction.need;
    const double run = tables_.run.cost + tables_.change_cost(tables_.run, need.after(now));
    made.round_trip.push_back(need.cost + tables_.change_cost(need, now) + run);
  }
  return made;
}

double Leaf::round_trip(std::size_t correction, const Configuration& now) {
  return prices(now).round_trip[correction];
}

/// A place in left_, or its size if none can mend anything.
std::size_t Leaf::best_correction(const Prices& prices, double wrong) const {
  std::size_t best = left_.size();
  double best_mends = 0;
  double best_price = 1;
  for (std::size_t place = 0; place < left_.size(); ++place) {
    const double mends = mends_[left_[place]];
    if (mends < no_chance * wrong) continue;
    const double price = prices.round_trip[left_[place]];
    if (best < left_.size() && mends * best_price <= best_mends * price) continue;
    best = place;
    best_mends = mends;
    best_price = price;
  }
  return best;
}

void Leaf::set_weight(std::size_t state, double weight) {
  const double more = weight - belief_[state];
  belief_[state] = weight;
  for (const Mender& mender : tables_.menders[state])
    mends_[mender.correction] += more * mender.moved;
}

void Leaf::correct(std::size_t correction) {
  for (const Affected& affected : tables_.corrections[correction].affected) {
    const double weight = belief_[affected.state];
    if (weight == 0) continue;
    set_weight(affected.state, 0);
    for (const Passage& passage : affected.passages)
      set_weight(passage.to, belief_[passage.to] + weight * passage.chance);
  }
}

Rest Leaf::operator()(const Belief& belief, const Configuration& start, const Left& corrections) {
  Rest best{tables_.hand_over, {MoveKind::hand_over, 0}};
  if (!tables_.can_run) return best;
  belief_.assign(tables_.states, 0.0);
  mends_.assign(tables_.corrections.size(), 0.0);
  for (std::size_t state = 0; state < tables_.states; ++state)
    if (belief[state] != 0) set_weight(state, belief[state]);
  left_.clear();
  for (std::size_t index = 0; index < corrections.size(); ++index)
    if (corrections[index] != 0 && mends_[index] > 0) left_.push_back(index);

  Configuration now = start;
  Move first;
  double spent = 0;
  double wrong = 1;
  // Takes the sound part out of the belief; true once going on cannot lower the cost any more.
  const auto run_and_stop = [&] {
    wrong -= belief_[tables_.sound];
    belief_[tables_.sound] = 0;
    const double handed_over = spent + wrong * tables_.hand_over;
    if (handed_over < best.cost - same_cost) best = {handed_over, first};
    return spent >= best.cost || wrong < all_done;
  };

  if (belief_[tables_.sound] > no_chance) {
    first = {MoveKind::run, 0};
    spent += prices(now).run;
    now = tables_.run.after(now);
    if (run_and_stop()) return best;
  }
  const Prices* price = &prices(now);
  while (!left_.empty()) {
    const std::size_t place = best_correction(*price, wrong);
    if (place == left_.size()) break;
    const std::size_t index = left_[place];
    if (first.kind == MoveKind::hand_over) first = {MoveKind::correction, index};
    spent += wrong * price->round_trip[index];
    const Configuration then = tables_.run.after(tables_.corrections[index].need.after(now));
    if (then != now) price = &prices(now = then);
    left_.erase(left_.begin() + static_cast<std::ptrdiff_t>(place));
    correct(index);
    if (run_and_stop()) break;
  }
  return best;
}

}  // namespace soot::plan
