// What no single entry can know: that every id named anywhere is there, once, and of the right kind
// and unit.
#pragma once

#include "core/model/knowledge.hpp"

namespace soot {

/// All complaints, each at the entry that names what is not there. Empty = sound.
Problems cross_check(const Knowledge& knowledge);

}  // namespace soot
