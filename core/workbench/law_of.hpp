// The lift law that a family's tables name, or the one of its own that its plugin serves.
#pragma once

#include "core/calc/lift_law.hpp"
#include "core/model/family.hpp"

#include <memory>

namespace soot {

/// `own` may be null. Nothing (a null pointer) where the family names no law; fails on a law that
/// cannot be, and on `law = "own"` without one.
Result<std::shared_ptr<const calc::LiftLaw>> law_of(const Family& family,
                                                    std::shared_ptr<const calc::LiftLaw> own);

}  // namespace soot
