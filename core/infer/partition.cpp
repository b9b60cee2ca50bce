#include "core/infer/partition.hpp"

#include <algorithm>
#include <limits>
#include <numeric>
#include <set>
#include <tuple>

namespace soot::infer {

namespace {

class UnionFind {
 public:
  explicit UnionFind(std::size_t size) : parent_(size) {
    std::iota(parent_.begin(), parent_.end(), std::size_t{0});
  }
  std::size_t root(std::size_t i) {
    while (parent_[i] != i)
      i = parent_[i] = parent_[parent_[i]];
    return i;
  }
  /// The smaller index stays the root, so that parts keep the order of their first member.
  void join(std::size_t a, std::size_t b) {
    a = root(a);
    b = root(b);
    parent_[std::max(a, b)] = std::min(a, b);
  }

 private:
  std::vector<std::size_t> parent_;
};

/// One order whatever order the evidence came in.
std::vector<std::size_t> sorted_readings(const Evidence& evidence) {
  std::vector<std::size_t> order(evidence.readings.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  const auto rank = [&](std::size_t index) {
    const Reading& r = evidence.readings[index];
    return std::tuple(r.cylinder, r.quantity, r.lower, r.upper, r.sd, r.shift);
  };
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return rank(a) < rank(b); });
  return order;
}

bool scatters(const Network& network, std::size_t cause, std::size_t quantity) {
  for (const Effect& effect : network.causes[cause].effects) {
    if (std::all_of(effect.scatter.begin(), effect.scatter.end(), [](double s) { return s == 0; }))
      continue;
    for (const Response& response : network.quantities[quantity].responses)
      if (response.term == effect.term) return true;
  }
  return false;
}

bool has_scatter(const Cause& cause) {
  return std::any_of(cause.effects.begin(), cause.effects.end(),
                     [](const Effect& effect) { return !effect.scatter.empty(); });
}

/// Summed out innermost first: those with few bits keep the inner tables small.
void order_instances(Block& block, const std::vector<std::vector<Touch>>& touches) {
  std::stable_sort(
      block.instances.begin(), block.instances.end(),
      [&](std::size_t a, std::size_t b) { return touches[a].size() > touches[b].size(); });
}

struct Workshop {
  const Network& network;
  const Instances& instances;
  const Evidence& evidence;
  const std::vector<std::vector<Touch>>& touches;
  std::vector<std::size_t> order = sorted_readings(evidence);
  std::vector<std::vector<std::size_t>> reached_by = all_reached();

  const Reading& reading(std::size_t at) const { return evidence.readings[order[at]]; }

  /// Places in `order` of the readings that an instance reaches.
  const std::vector<std::size_t>& reached(std::size_t instance) const {
    return reached_by[instance];
  }

  std::vector<std::vector<std::size_t>> all_reached() const {
    std::vector<std::vector<std::size_t>> all(instances.size());
    for (std::size_t cause = 0; cause < network.causes.size(); ++cause) {
      if (network.causes[cause].effects.empty()) continue;
      std::vector<int> known(network.quantities.size(), -1);
      for (std::size_t at = 0; at < order.size(); ++at) {
        int& moves = known[reading(at).quantity];
        if (moves < 0) moves = reaches(network, cause, reading(at).quantity) ? 1 : 0;
        if (moves == 0) continue;
        const std::size_t first = instances.first_of(cause);
        for (std::size_t i = first; i < first + instances.count_of(cause); ++i)
          if (hears(reading(at).cylinder, instances[i])) all[i].push_back(at);
      }
    }
    return all;
  }

  bool same_draw(std::size_t a, std::size_t b) const {
    return reading(a).quantity == reading(b).quantity && reading(a).cylinder == reading(b).cylinder;
  }

  /// Readings of one cylinder that an engine-wide cause moves each by a scatter of its own.
  void join_scattered(UnionFind& parts) const {
    for (std::size_t cause = 0; cause < network.causes.size(); ++cause) {
      if (!has_scatter(network.causes[cause])) continue;
      for (std::size_t a = 0; a < order.size(); ++a)
        for (std::size_t b = 0; b < a; ++b)
          if (reading(a).cylinder > 0 && reading(a).cylinder == reading(b).cylinder &&
              scatters(network, cause, reading(a).quantity) &&
              scatters(network, cause, reading(b).quantity))
            parts.join(a, b);
    }
  }

  UnionFind blocks() const {
    UnionFind parts(order.size());
    for (std::size_t a = 0; a < order.size(); ++a)
      for (std::size_t b = 0; b < a; ++b)
        if (same_draw(a, b)) parts.join(a, b);
    join_scattered(parts);
    for (std::size_t i = 0; i < instances.size(); ++i) {
      if (instances[i].cylinder == 0) continue;
      const std::vector<std::size_t>& places = reached(i);
      for (const std::size_t place : places)
        parts.join(place, places.front());
    }
    return parts;
  }

  UnionFind groups(UnionFind blocks) const {
    for (std::size_t i = 0; i < instances.size(); ++i) {
      const std::vector<std::size_t>& places = reached(i);
      for (const std::size_t place : places)
        blocks.join(place, places.front());
    }
    for (const InstrumentFault& fault : network.instrument_faults)
      for (std::size_t a = 0; a < order.size(); ++a)
        for (std::size_t b = 0; b < a; ++b)
          if (reading(a).quantity == fault.quantity && reading(b).quantity == fault.quantity)
            blocks.join(a, b);
    return blocks;
  }

  void note_bits(std::set<std::size_t>& bits, const std::vector<std::size_t>& members) const {
    for (const std::size_t member : members)
      for (const Touch& touch : touches[member])
        bits.insert(touch.bit);
  }

  void place_bits(Group& group) const {
    std::set<std::size_t> all;
    note_bits(all, group.commons);
    for (const Block& block : group.blocks)
      note_bits(all, block.instances);
    group.bits.assign(all.begin(), all.end());
    for (Block& block : group.blocks) {
      std::set<std::size_t> own;
      note_bits(own, block.instances);
      for (std::size_t place = 0; place < group.bits.size(); ++place)
        if (own.count(group.bits[place]) > 0) block.bits.push_back(place);
      block.assignments = Grades(network, instances, block.instances).total();
    }
  }
};

}  // namespace

bool reaches(const Network& network, std::size_t cause, std::size_t quantity) {
  for (const Effect& effect : network.causes[cause].effects)
    for (const Response& response : network.quantities[quantity].responses)
      if (response.term == effect.term &&
          !(response.shift.is_straight() && response.shift.slope_at(0) == 0))
        return true;
  return false;
}

Partition partition(const Network& network, const Instances& instances, const Evidence& evidence,
                    const std::vector<std::vector<Touch>>& touches) {
  const Workshop shop{network, instances, evidence, touches};
  UnionFind blocks = shop.blocks();
  UnionFind groups = shop.groups(blocks);
  Partition result;
  const std::size_t none = std::numeric_limits<std::size_t>::max();
  std::vector<std::size_t> group_at(shop.order.size(), none);
  std::vector<std::size_t> block_at(shop.order.size(), none);
  for (std::size_t at = 0; at < shop.order.size(); ++at) {
    const std::size_t group_root = groups.root(at);
    if (group_root == at) {
      group_at[at] = result.groups.size();
      result.groups.emplace_back();
    }
    Group& group = result.groups[group_at[group_root]];
    const std::size_t block_root = blocks.root(at);
    if (block_root == at) {
      block_at[at] = group.blocks.size();
      group.blocks.emplace_back();
    }
    group.blocks[block_at[block_root]].readings.push_back(shop.order[at]);
  }
  for (std::size_t i = 0; i < instances.size(); ++i) {
    const std::vector<std::size_t>& places = shop.reached(i);
    if (places.empty()) {
      (touches[i].empty() ? result.idle : result.plain).push_back(i);
      continue;
    }
    Group& group = result.groups[group_at[groups.root(places.front())]];
    if (instances[i].cylinder == 0)
      group.commons.push_back(i);
    else
      group.blocks[block_at[blocks.root(places.front())]].instances.push_back(i);
  }
  for (std::size_t fault = 0; fault < network.instrument_faults.size(); ++fault)
    for (std::size_t at = 0; at < shop.order.size(); ++at)
      if (shop.reading(at).quantity == network.instrument_faults[fault].quantity) {
        result.groups[group_at[groups.root(at)]].faults.push_back(fault);
        break;
      }
  for (Group& group : result.groups) {
    for (Block& block : group.blocks)
      order_instances(block, touches);
    shop.place_bits(group);
  }
  return result;
}

Group as_one_block(const Group& group, const Network& network, const Instances& instances,
                   const std::vector<std::vector<Touch>>& touches) {
  Group joined{group.commons, group.faults, {}, group.bits};
  Block all;
  for (const Block& block : group.blocks) {
    all.readings.insert(all.readings.end(), block.readings.begin(), block.readings.end());
    all.instances.insert(all.instances.end(), block.instances.begin(), block.instances.end());
    all.bits = united(all.bits, block.bits);
  }
  order_instances(all, touches);
  all.assignments = Grades(network, instances, all.instances).total();
  joined.blocks.push_back(std::move(all));
  return joined;
}

Grades::Grades(const Network& network, const Instances& instances,
               const std::vector<std::size_t>& members)
    : radix_(members.size()), step_(members.size()) {
  for (std::size_t i = members.size(); i-- > 0;) {
    step_[i] = total_;
    radix_[i] = network.causes[instances[members[i]].cause].grades + 1;
    // Stops growing before it overflows: so many are refused anyway.
    if (total_ < (std::size_t{1} << 60)) total_ *= radix_[i];
  }
}

}  // namespace soot::infer
