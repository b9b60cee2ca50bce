// A family's file read by itself, before any engine is asked about it: what is wrong in it, and
// what it leaves out.
#pragma once

#include "core/report/spec_sheet.hpp"
#include "core/workbench/bench.hpp"

#include <filesystem>

namespace soot {

/// Reads the file with the bench's knowledge and plugins (a family with `law = "own"` is held
/// against the law that a plugin serves for it). Fails with all findings at once, Kind::data, at
/// their lines: what cannot be read, what contradicts the other figures, a tolerance finer than the
/// instrument, entries that do not go with the common knowledge.
Result<FamilyFindings> check_family(const Bench& bench, const std::filesystem::path& file);

/// The same of a family that was read already; `own_law` may be null.
Result<FamilyFindings> findings_in(const ReadFamily& read,
                                   const std::shared_ptr<const calc::LiftLaw>& own_law,
                                   const Knowledge& common);

}  // namespace soot
