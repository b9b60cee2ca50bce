// What no single entry can know: that every id named anywhere is there, once, and of the right kind
// and unit.
#pragma once

#include "core/model/knowledge.hpp"

namespace soot {

/// All complaints, each at the name that is wrong, else at the entry that has it. Empty = sound.
Problems cross_check(const Knowledge& knowledge);

/// What a family's `own` entries have wrong, beside a `common` knowledge that is sound by itself.
Problems cross_check(const Knowledge& common, const Knowledge& own);

}  // namespace soot
