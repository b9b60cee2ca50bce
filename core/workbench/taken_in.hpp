// A family as a plugin served it, read and put together, before any engine of it is asked about.
#pragma once

#include "core/calc/lift_law.hpp"
#include "core/host/served_family.hpp"
#include "core/knowledge/family_reader.hpp"

#include <memory>
#include <vector>

namespace soot {

struct TakenIn {
  Family family;  ///< with the figures that follow from those it gives
  Knowledge own;
  std::vector<Amendment> amendments;
  std::shared_ptr<const calc::LiftLaw> law;
};

/// Reads what a plugin served. The first problem says that the family is hidden, the rest why.
Result<TakenIn> take_in(const host::ServedFamily& served, const Scale& scale);

/// What is wrong with the names in it: its tables call it otherwise than its plugin, or entries of
/// its own have an id that does not begin with the plugin's or the family's and so may meet others.
Problems wrong_names(const ReadFamily& read, const host::ServedFamily& served);

/// The common knowledge as a family has it: amended, with its own entries, without what it lacks.
Result<Knowledge> join(const Knowledge& common, const std::vector<Amendment>& amendments,
                       const Knowledge& own, const Family& family);

}  // namespace soot
