#include "core/infer/group_pass.hpp"

#include <algorithm>

namespace soot::infer {

namespace {

/// Place of each global bit in `bits`; only those are asked for.
BitList places_in(const BitList& bits) {
  BitList place(bits.empty() ? 0 : bits.back() + 1);
  for (std::size_t i = 0; i < bits.size(); ++i)
    place[bits[i]] = i;
  return place;
}

double lane_dot(const double* a, const double* b, std::size_t count) {
  double sum = 0;
  for (std::size_t lane = 0; lane < count; ++lane)
    sum += a[lane] * b[lane];
  return sum;
}

}  // namespace

GroupPass::GroupPass(const Network& network, const Instances& instances,
                     const std::vector<std::vector<Touch>>& touches, const PreparedGroup& prepared,
                     const Priors& priors)
    : instances_(instances), prepared_(prepared) {
  const Group& group = prepared.group;
  for (const Block& block : group.blocks) {
    grades_.emplace_back(network, instances, block.instances);
    BitList own;
    for (const std::size_t place : block.bits)
      own.push_back(group.bits[place]);
    const BitList place = places_in(own);
    std::vector<Table> tables;
    for (std::size_t x = 0; x < grades_.back().total(); ++x) {
      Table table(own.size());
      table[0] = 1;
      for (std::size_t i = 0; i < block.instances.size(); ++i)
        table[0] *= priors.grade[block.instances[i]][grades_.back().of(x, i)];
      for (std::size_t i = 0; i < block.instances.size(); ++i)
        fire(table, touches[block.instances[i]], grades_.back().of(x, i), place);
      tables.push_back(std::move(table));
    }
    explains_.push_back(std::move(tables));
  }
  const BitList place = places_in(group.bits);
  for (const CommonState& state : prepared.states) {
    Table table(group.bits.size());
    table[0] = state.fault ? network.instrument_faults[group.faults[*state.fault]].prior : 1;
    for (std::size_t i = 0; i < group.commons.size(); ++i) {
      table[0] *= priors.grade[group.commons[i]][state.grades[i]];
    }
    for (std::size_t i = 0; i < group.commons.size(); ++i)
      fire(table, touches[group.commons[i]], state.grades[i], place);
    std::vector<std::pair<std::size_t, double>> sets;
    for (std::size_t set = 0; set < table.sets(); ++set)
      if (table[set] > 0) sets.emplace_back(set, table[set]);
    state_explains_.push_back(std::move(sets));
  }
}

bool GroupPass::block_has(std::size_t block, std::size_t cause) const {
  const auto& own = prepared_.group.blocks[block].instances;
  return std::any_of(own.begin(), own.end(),
                     [&](std::size_t i) { return instances_[i].cause == cause; });
}

bool GroupPass::has(std::size_t cause) const {
  for (std::size_t b = 0; b < prepared_.group.blocks.size(); ++b)
    if (block_has(b, cause)) return true;
  return false;
}

const double* GroupPass::weights(const Chunk& chunk, std::size_t state) const {
  const std::size_t nodes = prepared_.regimes[chunk.regime].nodes.size();
  return prepared_.weight[chunk.regime].data() + state * nodes + chunk.first -
         prepared_.first_node[chunk.regime];
}

GroupPass::Filter GroupPass::filter_of(const Choices& choices) const {
  Filter filter;
  filter.state.assign(prepared_.states.size(), true);
  for (const Grades& grades : grades_)
    filter.assignment.emplace_back(grades.total(), true);
  const Group& here = prepared_.group;
  for (const auto& [instance, grade] : choices) {
    for (std::size_t c = 0; c < here.commons.size(); ++c)
      if (here.commons[c] == instance)
        for (std::size_t s = 0; s < filter.state.size(); ++s)
          if (prepared_.states[s].grades[c] != grade) filter.state[s] = false;
    for (std::size_t b = 0; b < here.blocks.size(); ++b)
      for (std::size_t i = 0; i < here.blocks[b].instances.size(); ++i)
        if (here.blocks[b].instances[i] == instance)
          for (std::size_t x = 0; x < grades_[b].total(); ++x)
            if (grades_[b].of(x, i) != grade) filter.assignment[b][x] = false;
  }
  return filter;
}

bool GroupPass::has_states(const Chunk& chunk, const Filter& filter) const {
  const auto& states = prepared_.regimes[chunk.regime].states;
  return std::any_of(states.begin(), states.end(),
                     [&](std::size_t state) { return filter.state[state]; });
}

Table GroupPass::start(const Chunk& chunk, const Filter& filter) const {
  Table table(prepared_.group.bits.size(), chunk.count);
  const auto& states = prepared_.regimes[chunk.regime].states;
  for (std::size_t i = 0; i < states.size(); ++i) {
    if (!filter.state[states[i]]) continue;
    const double* weight = weights(chunk, i);
    for (const auto& [set, probability] : state_explains_[states[i]]) {
      double* row = table.row(set);
      for (std::size_t lane = 0; lane < chunk.count; ++lane)
        row[lane] += probability * weight[lane];
    }
  }
  return table;
}

Table GroupPass::block_table(std::size_t block, const Chunk& chunk, const Filter& filter) const {
  const Block& here = prepared_.group.blocks[block];
  Table table(here.bits.size(), chunk.count);
  for (std::size_t x = 0; x < here.assignments; ++x) {
    if (!filter.assignment[block][x]) continue;
    const double* likelihood =
        prepared_.likelihood[block].data() + x * prepared_.nodes + chunk.first;
    const Table& explains = explains_[block][x];
    for (std::size_t set = 0; set < table.sets(); ++set) {
      if (explains[set] == 0) continue;
      double* row = table.row(set);
      for (std::size_t lane = 0; lane < chunk.count; ++lane)
        row[lane] += explains[set] * likelihood[lane];
    }
  }
  return table;
}

Kernel GroupPass::empty_kernel() const {
  const std::size_t bits = prepared_.group.bits.size();
  return {Table(bits), Table(bits)};
}

void GroupPass::collect(Kernel& kernel, const Chunk& chunk, const Table& table) const {
  Table& to = prepared_.regimes[chunk.regime].faulty ? kernel.wrong : kernel.calm;
  for (std::size_t set = 0; set < table.sets(); ++set)
    for (std::size_t lane = 0; lane < chunk.count; ++lane)
      to[set] += table.row(set)[lane];
}

Kernel GroupPass::kernel(const Choices& choices) const {
  const Filter filter = filter_of(choices);
  Kernel kernel = empty_kernel();
  for (const Chunk& chunk : prepared_.chunks) {
    if (!has_states(chunk, filter)) continue;
    Table table = start(chunk, filter);
    for (std::size_t b = 0; b < prepared_.group.blocks.size(); ++b) {
      Table next(table.bits(), table.lanes());
      add_or(next, table, block_table(b, chunk, filter), prepared_.group.blocks[b].bits);
      table = std::move(next);
    }
    collect(kernel, chunk, table);
  }
  return kernel;
}

std::pair<Kernel, Kernel> GroupPass::parted_kernel(std::size_t cause) const {
  Choices all_sound;
  for (const Block& block : prepared_.group.blocks)
    for (const std::size_t i : block.instances)
      if (instances_[i].cause == cause) all_sound.emplace_back(i, 0);
  const Filter sound_filter = filter_of(all_sound);
  Filter present_filter = sound_filter;
  for (auto& block : present_filter.assignment)
    block.flip();
  std::pair<Kernel, Kernel> parts{empty_kernel(), empty_kernel()};
  for (const Chunk& chunk : prepared_.chunks) {
    Table sound = start(chunk, sound_filter);
    Table present(sound.bits(), sound.lanes());
    for (std::size_t b = 0; b < prepared_.group.blocks.size(); ++b) {
      const BitList& bits = prepared_.group.blocks[b].bits;
      Table next_sound(sound.bits(), sound.lanes());
      Table next_present(sound.bits(), sound.lanes());
      Table own = block_table(b, chunk, sound_filter);
      add_or(next_sound, sound, own, bits);
      if (block_has(b, cause)) {
        const Table with = block_table(b, chunk, present_filter);
        add_or(next_present, sound, with, bits);
        own.add(with);
      }
      add_or(next_present, present, own, bits);
      sound = std::move(next_sound);
      present = std::move(next_present);
    }
    collect(parts.first, chunk, sound);
    collect(parts.second, chunk, present);
  }
  return parts;
}

void GroupPass::add_block(std::size_t block, const Chunk& chunk, const Table& gradient,
                          const Filter& filter, Parts& out) const {
  const Block& here = prepared_.group.blocks[block];
  for (std::size_t x = 0; x < here.assignments; ++x) {
    if (!filter.assignment[block][x]) continue;
    const double* likelihood =
        prepared_.likelihood[block].data() + x * prepared_.nodes + chunk.first;
    for (std::size_t set = 0; set < gradient.sets(); ++set)
      if (explains_[block][x][set] > 0)
        out.assignment[block][x] +=
            explains_[block][x][set] * lane_dot(gradient.row(set), likelihood, chunk.count);
  }
}

void GroupPass::add_states(const Chunk& chunk, const Table& after, const Filter& filter,
                           Parts& out) const {
  const auto& states = prepared_.regimes[chunk.regime].states;
  for (std::size_t i = 0; i < states.size(); ++i) {
    if (!filter.state[states[i]]) continue;
    for (const auto& [set, probability] : state_explains_[states[i]])
      out.state[states[i]] +=
          probability * lane_dot(after.row(set), weights(chunk, i), chunk.count);
  }
}

Parts GroupPass::parts(const Kernel& gradient, const Choices& choices) const {
  const Filter filter = filter_of(choices);
  Parts out;
  out.state.assign(prepared_.states.size(), 0.0);
  for (const Grades& grades : grades_)
    out.assignment.emplace_back(grades.total(), 0.0);
  const std::size_t blocks = prepared_.group.blocks.size();
  for (const Chunk& chunk : prepared_.chunks) {
    if (!has_states(chunk, filter)) continue;
    std::vector<Table> before{start(chunk, filter)};
    std::vector<Table> own;
    for (std::size_t b = 0; b < blocks; ++b) {
      own.push_back(block_table(b, chunk, filter));
      before.emplace_back(before[b].bits(), chunk.count);
      add_or(before[b + 1], before[b], own[b], prepared_.group.blocks[b].bits);
    }
    const Table& from = prepared_.regimes[chunk.regime].faulty ? gradient.wrong : gradient.calm;
    Table after(from.bits(), chunk.count);
    for (std::size_t set = 0; set < from.sets(); ++set)
      std::fill_n(after.row(set), chunk.count, from[set]);
    for (std::size_t b = blocks; b-- > 0;) {
      const BitList& bits = prepared_.group.blocks[b].bits;
      Table slope(bits.size(), chunk.count);
      add_or_gradient(slope, before[b], after, bits);
      add_block(b, chunk, slope, filter, out);
      Table earlier(after.bits(), chunk.count);
      add_or_adjoint(earlier, after, own[b], bits);
      after = std::move(earlier);
    }
    add_states(chunk, after, filter, out);
  }
  return out;
}

void GroupPass::backward(const Kernel& gradient, Numerators& out) const {
  const Parts all = parts(gradient, {});
  const Group& here = prepared_.group;
  for (std::size_t s = 0; s < all.state.size(); ++s) {
    const CommonState& state = prepared_.states[s];
    for (std::size_t c = 0; c < state.grades.size(); ++c)
      out.grade[here.commons[c]][state.grades[c]] += all.state[s];
    if (state.fault) out.fault[here.faults[*state.fault]] += all.state[s];
  }
  for (std::size_t b = 0; b < here.blocks.size(); ++b)
    for (std::size_t x = 0; x < all.assignment[b].size(); ++x)
      for (std::size_t i = 0; i < here.blocks[b].instances.size(); ++i)
        out.grade[here.blocks[b].instances[i]][grades_[b].of(x, i)] += all.assignment[b][x];
}

}  // namespace soot::infer
