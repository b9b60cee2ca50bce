#include "core/infer/group_pass.hpp"

#include "core/base/parallel.hpp"
#include "core/infer/row_sums.hpp"

#include <algorithm>

namespace soot::infer {

namespace {

/// Tables of all chunks are kept from forward to backward up to so many numbers, else made twice.
constexpr std::size_t most_kept = std::size_t{1} << 20;

void fire(std::vector<double>& table, std::size_t place, double strength) {
  const std::size_t half = std::size_t{1} << place;
  for (std::size_t start = 0; start < table.size(); start += 2 * half)
    for (std::size_t i = start; i < start + half; ++i) {
      table[i + half] += strength * table[i];
      table[i] *= 1 - strength;
    }
}

void add_to(std::vector<double>& to, std::vector<double>& more) {
  if (to.empty()) to.swap(more);
  for (std::size_t i = 0; i < more.size(); ++i)
    to[i] += more[i];
}

}  // namespace

GroupPass::GroupPass(const Network& network, const Instances& instances,
                     const std::vector<std::vector<Touch>>& touches, const PreparedGroup& prepared,
                     const Priors& priors, const Nodes::Numbers* banded)
    : instances_(&instances), prepared_(&prepared), banded_(banded) {
  const Group& group = prepared.group;
  for (const Block& block : group.blocks) {
    all_.block.emplace_back();
    for (const std::size_t i : block.instances)
      all_.block.back().of_level.push_back(Contraction::numbers_of(priors.grade[i], touches[i]));
  }
  all_.state.assign(prepared.states.size(), true);
  std::vector<std::size_t> place(group.bits.empty() ? 0 : group.bits.back() + 1);
  for (std::size_t i = 0; i < group.bits.size(); ++i)
    place[group.bits[i]] = i;
  for (const CommonState& state : prepared.states) {
    double prior = state.fault ? network.instrument_faults[group.faults[*state.fault]].prior : 1;
    std::vector<double> fired(group.bits.size(), 0.0);
    for (std::size_t c = 0; c < group.commons.size(); ++c) {
      prior *= priors.grade[group.commons[c]][state.grades[c]];
      if (state.grades[c] == 0) continue;
      for (const Touch& touch : touches[group.commons[c]]) {
        double& one = fired[place[touch.bit]];
        one += (1 - one) * touch.strength[state.grades[c]];
      }
    }
    state_prior_.push_back(prior);
    firing_.emplace_back();
    for (std::size_t p = 0; p < fired.size(); ++p)
      if (fired[p] > 0) firing_.back().emplace_back(p, fired[p]);
  }
  for (std::size_t b = 0; b < prepared.blocks.size(); ++b) {
    own_at_.push_back(chunk_size_);
    chunk_size_ += prepared.blocks[b].table_size();
    upto_at_.push_back(b == 0 ? own_at_[0] : chunk_size_);
    if (b > 0) chunk_size_ += prepared.joins[b].out_size();
  }
}

bool GroupPass::has(std::size_t cause) const {
  for (const Block& block : group().blocks)
    for (const std::size_t i : block.instances)
      if ((*instances_)[i].cause == cause) return true;
  return false;
}

GroupPass::Numbers GroupPass::restrict(const Choices& choices) const {
  Numbers numbers = all_;
  for (const auto& [instance, grade] : choices) {
    for (std::size_t c = 0; c < group().commons.size(); ++c)
      if (group().commons[c] == instance)
        for (std::size_t s = 0; s < numbers.state.size(); ++s)
          if (prepared_->states[s].grades[c] != grade) numbers.state[s] = false;
    for (std::size_t b = 0; b < group().blocks.size(); ++b)
      for (std::size_t i = 0; i < group().blocks[b].instances.size(); ++i) {
        if (group().blocks[b].instances[i] != instance) continue;
        std::vector<double>& own = numbers.block[b].of_level[i];
        const std::size_t ways = own.size() / prepared_->blocks[b].radix(i);
        for (std::size_t at = 0; at < own.size(); ++at)
          if (at / ways != grade) own[at] = 0;
      }
  }
  return numbers;
}

void GroupPass::keep_grades(Contraction::Numbers& numbers, std::size_t b, std::size_t i,
                            bool sound) const {
  std::vector<double>& own = numbers.of_level[i];
  const std::size_t ways = own.size() / prepared_->blocks[b].radix(i);
  for (std::size_t at = 0; at < own.size(); ++at)
    if ((at / ways == 0) != sound) own[at] = 0;
}

GroupPass::Parted GroupPass::part(std::size_t cause) const {
  Parted parted{all_, {}};
  for (std::size_t b = 0; b < group().blocks.size(); ++b) {
    parted.present.emplace_back();
    for (std::size_t i = 0; i < group().blocks[b].instances.size(); ++i) {
      if ((*instances_)[group().blocks[b].instances[i]].cause != cause) continue;
      // The first one present is this one: those before are sound, those after as they like.
      Contraction::Numbers first = parted.sound.block[b];
      keep_grades(first, b, i, false);
      parted.present.back().push_back(std::move(first));
      keep_grades(parted.sound.block[b], b, i, true);
    }
  }
  return parted;
}

bool GroupPass::takes_part(const Numbers& numbers, const Regime& regime) const {
  return std::any_of(regime.states.begin(), regime.states.end(),
                     [&](std::size_t s) { return numbers.state[s] && state_prior_[s] > 0; });
}

void GroupPass::join_blocks(const Numbers& numbers, std::size_t chunk, double* tables) const {
  for (std::size_t b = 0; b < prepared_->blocks.size(); ++b) {
    prepared_->blocks[b].forward(likelihood(b, chunk), numbers.block[b], tables + own_at(b));
    if (b > 0)
      prepared_->joins[b].forward(tables + upto_at(b), tables + upto_at(b - 1), tables + own_at(b));
  }
}

/// Slices are worth a thread each only where a pass over them takes a good part of a millisecond.
std::vector<GroupPass::Slice> GroupPass::slices() const {
  constexpr double work_of_a_slice = 1 << 19;
  constexpr std::size_t most = 8;
  const std::size_t chunks = prepared_->nodes.chunks;
  const auto worth = static_cast<std::size_t>(prepared_->pass_work / work_of_a_slice);
  const std::size_t count =
      std::clamp(worth, std::size_t{1}, std::clamp(chunks, std::size_t{1}, most));
  std::vector<Slice> result;
  for (std::size_t i = 0; i < count; ++i)
    result.push_back({chunks * i / count, chunks * (i + 1) / count});
  return result;
}

GroupPass::StateTables GroupPass::sum_states(const Numbers& numbers, double* keep) const {
  const std::vector<Slice> all = slices();
  std::vector<StateTables> parts(all.size(), StateTables(prepared_->states.size()));
  in_parallel(all.size(), [&](std::size_t i) { add_states(numbers, keep, all[i], parts[i]); });
  StateTables before = std::move(parts[0]);
  for (std::size_t i = 1; i < parts.size(); ++i)
    for (std::size_t s = 0; s < before.size(); ++s)
      add_to(before[s], parts[i][s]);
  return before;
}

void GroupPass::add_states(const Numbers& numbers, double* keep, Slice slice,
                           StateTables& before) const {
  const std::size_t sets = prepared_->block_sets();
  std::vector<double> scratch(keep == nullptr ? chunk_size_ : 0);
  for (const Regime& regime : prepared_->nodes.regimes) {
    const Slice here = within(slice, regime);
    if (here.first >= here.end || !takes_part(numbers, regime)) continue;
    for (const std::size_t s : regime.states)
      if (numbers.state[s]) before[s].assign(sets, 0.0);
    for (std::size_t chunk = here.first; chunk < here.end; ++chunk) {
      double* tables = keep == nullptr ? scratch.data() : keep + chunk * chunk_size_;
      join_blocks(numbers, chunk, tables);
      const double* table = tables + upto_at_.back();
      const double* weight = weights(regime, chunk);
      for (std::size_t i = 0; i < regime.states.size(); ++i)
        if (numbers.state[regime.states[i]])
          add_weighted_sums(before[regime.states[i]].data(), table, weight + i * lanes, sets);
    }
  }
}

Kernel GroupPass::empty_kernel() const {
  Kernel kernel;
  kernel.calm.assign(prepared_->sets(), 0.0);
  if (!group().faults.empty()) kernel.wrong.assign(prepared_->sets(), 0.0);
  return kernel;
}

Kernel GroupPass::collect(const Numbers& numbers, const StateTables& before) const {
  Kernel kernel = empty_kernel();
  for (std::size_t s = 0; s < before.size(); ++s) {
    if (before[s].empty() || !numbers.state[s] || state_prior_[s] == 0) continue;
    std::vector<double> table(prepared_->sets(), 0.0);
    for (std::size_t set = 0; set < before[s].size(); ++set)
      table[prepared_->spread[set]] = before[s][set];
    for (const auto& [place, strength] : firing_[s])
      fire(table, place, strength);
    std::vector<double>& to = prepared_->states[s].fault ? kernel.wrong : kernel.calm;
    for (std::size_t set = 0; set < table.size(); ++set)
      to[set] += state_prior_[s] * table[set];
  }
  return kernel;
}

Kernel GroupPass::kernel() {
  const bool keep = prepared_->nodes.chunks * chunk_size_ <= most_kept;
  if (keep) kept_ = Buffer(prepared_->nodes.chunks * chunk_size_);
  before_ = sum_states(all_, kept_.data());
  return collect(all_, before_);
}

Parts GroupPass::parts(const Kernel& gradient, const std::vector<std::size_t>& causes) const {
  return parts(gradient, all_, kept_.data(), before_, causes);
}

Kernel GroupPass::kernel(const Choices& choices) const {
  const Numbers numbers = restrict(choices);
  return collect(numbers, sum_states(numbers, nullptr));
}

Parts GroupPass::parts(const Kernel& gradient, const Choices& choices) const {
  const Numbers numbers = restrict(choices);
  return parts(gradient, numbers, nullptr, sum_states(numbers, nullptr), {});
}

std::pair<Kernel, Kernel> GroupPass::parted_kernel(std::size_t cause) const {
  const Parted parted = part(cause);
  const std::size_t sets = prepared_->block_sets();
  const std::size_t blocks = prepared_->blocks.size();
  std::vector<double> tables(chunk_size_), any(chunk_size_), more(chunk_size_), table;
  StateTables none_before(prepared_->states.size()), any_before(prepared_->states.size());
  for (const Regime& regime : prepared_->nodes.regimes) {
    if (!takes_part(all_, regime)) continue;
    for (const std::size_t s : regime.states) {
      none_before[s].assign(sets, 0.0);
      any_before[s].assign(sets, 0.0);
    }
    for (std::size_t chunk = regime.first; chunk < regime.first + regime.chunks; ++chunk) {
      join_blocks(parted.sound, chunk, tables.data());
      std::fill(any.begin(), any.end(), 0.0);
      for (std::size_t b = 0; b < blocks; ++b) {
        double* with = more.data() + own_at(b);
        const bool here = !parted.present[b].empty();
        std::fill_n(with, prepared_->blocks[b].table_size(), 0.0);
        for (const Contraction::Numbers& numbers : parted.present[b]) {
          table.resize(prepared_->blocks[b].table_size());
          prepared_->blocks[b].forward(likelihood(b, chunk), numbers, table.data());
          for (std::size_t i = 0; i < table.size(); ++i)
            with[i] += table[i];
        }
        double* own = tables.data() + own_at(b);
        double* out = any.data() + upto_at(b);
        if (b == 0) {
          if (here) std::copy_n(with, prepared_->size_upto(0), out);
          continue;
        }
        const Join& join = prepared_->joins[b];
        if (here) {  // newly present here, after all sound; or present before, whatever here
          join.forward(more.data() + upto_at(b), tables.data() + upto_at(b - 1), with);
          for (std::size_t i = 0; i < join.right_size(); ++i)
            with[i] += own[i];
          join.forward(out, any.data() + upto_at(b - 1), with);
          for (std::size_t i = 0; i < join.out_size(); ++i)
            out[i] += more[upto_at(b) + i];
        } else {
          join.forward(out, any.data() + upto_at(b - 1), own);
        }
      }
      const double* weight = weights(regime, chunk);
      for (std::size_t i = 0; i < regime.states.size(); ++i) {
        const std::size_t s = regime.states[i];
        add_weighted_sums(none_before[s].data(), tables.data() + upto_at_.back(),
                          weight + i * lanes, sets);
        add_weighted_sums(any_before[s].data(), any.data() + upto_at_.back(), weight + i * lanes,
                          sets);
      }
    }
  }
  return {collect(all_, none_before), collect(all_, any_before)};
}

}  // namespace soot::infer
