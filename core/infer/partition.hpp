// Internal to core/infer. Parts the causes by what they share. A cause that reaches a reading that
// was taken belongs to a *group*, the causes and readings joined by such reaches. Take the
// engine-wide causes and the faulty instruments away and a group falls into *blocks*, as a rule
// each inside one cylinder: given the shift that the engine-wide causes bring, blocks are
// independent. A quantity of the engine that hears cylinders' causes makes one block of them all.
// The rest are *plain* causes, known by symptoms alone, and *idle* ones that touch no evidence at
// all.
#pragma once

#include "core/infer/evidence.hpp"
#include "core/infer/instances.hpp"
#include "core/infer/or_table.hpp"
#include "core/infer/reports.hpp"

#include <cstddef>
#include <vector>

namespace soot::infer {

struct Block {
  std::vector<std::size_t> readings;   ///< indices into the evidence
  std::vector<std::size_t> instances;  ///< its own causes, those with many bits first; may be none
  std::size_t assignments = 1;         ///< joint grades of its own causes
  BitList bits;                        ///< places of its bits among the group's, rising
};

struct Group {
  std::vector<std::size_t> commons;  ///< engine-wide instances
  std::vector<std::size_t> faults;   ///< indices into Network::instrument_faults
  std::vector<Block> blocks;
  BitList bits;  ///< places of its bits among all, rising
};

struct Partition {
  std::vector<Group> groups;
  std::vector<std::size_t> plain;  ///< instances, neighbours of one cause together
  std::vector<std::size_t> idle;
};

/// Does the cause move the quantity at all?
bool reaches(const Network& network, std::size_t cause, std::size_t quantity);

Partition partition(const Network& network, const Instances& instances, const Evidence& evidence,
                    const std::vector<std::vector<Touch>>& touches);

/// The group with all its blocks made one: nothing is left to be shared between blocks, so that a
/// straight shift needs no integration.
Group as_one_block(const Group& group, const Network& network, const Instances& instances,
                   const std::vector<std::vector<Touch>>& touches);

/// Grade of the `which`-th of the causes in joint assignment `assignment` (mixed radix, the last
/// one's grade runs fastest).
class Grades {
 public:
  Grades(const Network& network, const Instances& instances,
         const std::vector<std::size_t>& members);
  std::size_t total() const { return total_; }
  std::size_t members() const { return radix_.size(); }
  std::size_t radix(std::size_t which) const { return radix_[which]; }
  std::size_t of(std::size_t assignment, std::size_t which) const {
    return assignment / step_[which] % radix_[which];
  }

 private:
  std::vector<std::size_t> radix_;
  std::vector<std::size_t> step_;
  std::size_t total_ = 1;
};

}  // namespace soot::infer
