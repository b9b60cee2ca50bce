// One engine's view of things: the family, its lift law, and the part of the knowledge that this
// engine can have. Everything asked of a job starts from here.
#pragma once

#include "core/calc/lift_law.hpp"
#include "core/model/family.hpp"
#include "core/model/knowledge.hpp"

#include <memory>

namespace soot {

struct Engine {
  Family family;
  std::shared_ptr<const calc::LiftLaw> law;  ///< null: none known
  Knowledge knowledge;                       ///< only what applies to this engine
  const Knowledge* common = nullptr;         ///< that it was taken from; the bench owns it
};

/// The common knowledge and a family's own entries, less what the engine lacks the parts for:
/// causes, symptoms, checks and corrections whose `needs` it has not, or whose `without` it has.
/// What is named only by dropped entries goes too (a check left with nothing to answer, a
/// procedure of work that is not done here). Variants for its features are taken. Fails if
/// the family's own entries and the common ones do not go together (cross_check.hpp).
Result<Knowledge> applicable(const Knowledge& common, const Knowledge& own, const Family& family);

}  // namespace soot
