#include "core/base/parallel.hpp"
#include "core/infer/group_pass.hpp"
#include "core/infer/row_sums.hpp"

namespace soot::infer {

namespace {

void fire_back(std::vector<double>& after, std::size_t place, double strength) {
  const std::size_t half = std::size_t{1} << place;
  for (std::size_t start = 0; start < after.size(); start += 2 * half)
    for (std::size_t i = start; i < start + half; ++i)
      after[i] = (1 - strength) * after[i] + strength * after[i + half];
}

void add_to(std::vector<double>& to, const std::vector<double>& more) {
  for (std::size_t i = 0; i < to.size(); ++i)
    to[i] += more[i];
}

}  // namespace

Parts GroupPass::no_parts(std::size_t causes) const {
  Parts out;
  out.state.assign(prepared_->states.size(), 0.0);
  for (const Contraction& block : prepared_->blocks)
    out.assignment.emplace_back(block.assignments(), 0.0);
  out.spread.resize(causes);
  return out;
}

Parts GroupPass::parts(const Kernel& gradient, const Numbers& numbers, const double* kept,
                       const StateTables& before, const std::vector<std::size_t>& causes) const {
  const std::size_t sets = prepared_->block_sets();
  Parts out = no_parts(causes.size());
  StateTables behind(prepared_->states.size());
  for (std::size_t s = 0; s < behind.size(); ++s) {
    if (!numbers.state[s] || before[s].empty()) continue;
    std::vector<double> fired = prepared_->states[s].fault ? gradient.wrong : gradient.calm;
    for (const auto& [place, strength] : firing_[s])
      fire_back(fired, place, strength);
    for (const std::size_t place : prepared_->spread)
      behind[s].push_back(state_prior_[s] * fired[place]);
    out.state[s] = dot(behind[s].data(), before[s].data(), sets);
  }
  std::vector<Parted> parted;
  for (const std::size_t cause : causes)
    parted.push_back(part(cause));
  const std::vector<Slice> all = slices();
  std::vector<Parts> each(all.size(), no_parts(causes.size()));
  in_parallel(all.size(),
              [&](std::size_t i) { add_parts(numbers, kept, behind, all[i], parted, each[i]); });
  for (const Parts& one : each) {
    for (std::size_t b = 0; b < out.assignment.size(); ++b)
      add_to(out.assignment[b], one.assignment[b]);
    for (std::size_t c = 0; c < causes.size(); ++c) {
      out.spread[c].any += one.spread[c].any;
      out.spread[c].none += one.spread[c].none;
    }
  }
  return out;
}

void GroupPass::add_parts(const Numbers& numbers, const double* kept, const StateTables& behind,
                          Slice slice, const std::vector<Parted>& parted, Parts& out) const {
  const std::size_t sets = prepared_->block_sets();
  std::vector<double> scratch(kept == nullptr ? chunk_size_ : 0);
  std::vector<double> after;
  for (const Regime& regime : prepared_->nodes.regimes) {
    const Slice here = within(slice, regime);
    if (here.first >= here.end || !takes_part(numbers, regime)) continue;
    for (std::size_t chunk = here.first; chunk < here.end; ++chunk) {
      if (kept == nullptr) join_blocks(numbers, chunk, scratch.data());
      const double* tables = kept == nullptr ? scratch.data() : kept + chunk * chunk_size_;
      after.assign(sets * lanes, 0.0);
      const double* weight = weights(regime, chunk);
      for (std::size_t i = 0; i < regime.states.size(); ++i)
        if (!behind[regime.states[i]].empty())
          add_weighted_numbers(after.data(), behind[regime.states[i]].data(), weight + i * lanes,
                               sets);
      for (std::size_t c = 0; c < parted.size(); ++c)
        part_cylinders(parted[c], chunk, tables, after, out.spread[c]);
      part_blocks(numbers, chunk, tables, after, out);
    }
  }
}

void GroupPass::part_blocks(const Numbers& numbers, std::size_t chunk, const double* tables,
                            std::vector<double>& after, Parts& out) const {
  thread_local std::vector<double> gradient, share, earlier;
  for (std::size_t b = prepared_->blocks.size(); b-- > 0;) {
    const Contraction& block = prepared_->blocks[b];
    const double* own = after.data();
    if (b > 0) {
      gradient.resize(block.table_size());
      prepared_->back[b].adjoint(gradient.data(), after.data(), tables + upto_at(b - 1));
      own = gradient.data();
    }
    share.resize(block.assignments() * lanes);
    block.backward(own, numbers.block[b], share.data());
    add_products(out.assignment[b].data(), share.data(), likelihood(b, chunk), block.assignments());
    if (b > 0) {
      earlier.resize(prepared_->size_upto(b - 1));
      prepared_->joins[b].adjoint(earlier.data(), after.data(), tables + own_at(b));
      after.swap(earlier);
    }
  }
}

/// By the last block in which the cause is present: sound behind it, as it likes before it.
void GroupPass::part_cylinders(const Parted& parted, std::size_t chunk, const double* tables,
                               std::vector<double> after, Spread& out) const {
  thread_local std::vector<double> gradient, table, earlier;
  for (std::size_t b = prepared_->blocks.size(); b-- > 0;) {
    const Contraction& block = prepared_->blocks[b];
    const std::size_t size = block.table_size();
    const double* sound = tables + own_at(b);
    if (!parted.present[b].empty()) {
      const double* own = after.data();
      if (b > 0) {
        gradient.resize(size);
        prepared_->back[b].adjoint(gradient.data(), after.data(), tables + upto_at(b - 1));
        own = gradient.data();
      }
      table.resize(size);
      for (const Contraction::Numbers& numbers : parted.present[b]) {
        block.forward(likelihood(b, chunk), numbers, table.data());
        out.any += dot(own, table.data(), size);
      }
      block.forward(likelihood(b, chunk), parted.sound.block[b], table.data());
      sound = table.data();
    }
    if (b == 0) {
      out.none += dot(after.data(), sound, size);
      continue;
    }
    earlier.resize(prepared_->size_upto(b - 1));
    prepared_->joins[b].adjoint(earlier.data(), after.data(), sound);
    after.swap(earlier);
  }
}

}  // namespace soot::infer
