// The knowledge as pages to read, one an entry: words where the files have words, sources in full.
#pragma once

#include "core/report/entry_page.hpp"
#include "core/workbench/bench.hpp"

#include <string>
#include <vector>

namespace soot {

/// What all engines share and what single families add, in one.
Knowledge whole_knowledge(const Bench& bench);

/// The page of that id; several where entries of several kinds share it (a correction and its
/// procedure). Fails (Kind::use) on an id that nothing has, with the nearest.
Result<std::vector<EntryPage>> pages_of(const Bench& bench, const std::string& id);

}  // namespace soot
