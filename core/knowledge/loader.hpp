// From files to Knowledge. Every file may hold any kind of entry; all files are read before
// anything is refused, so that one run tells all that is wrong.
#pragma once

#include "core/knowledge/scale.hpp"
#include "core/model/knowledge.hpp"
#include "core/table/reader.hpp"

#include <filesystem>

namespace soot {

struct LoadedKnowledge {
  Knowledge knowledge;
  Scale scale;
  bool operator==(const LoadedKnowledge&) const = default;
};

/// Reads scale.toml and every other *.toml below `folder`, in the order of their paths, and checks
/// that every id resolves (cross_check.hpp). Fails with all complaints, Kind::data; alone come
/// those of a scale that lacks a whole section of words.
Result<LoadedKnowledge> load_knowledge(const std::filesystem::path& folder);

/// Adds the entries of one table (a knowledge file, or what a family brings of its own) to
/// `knowledge`. The caller asks for its other keys and calls done().
void read_entries(Reader& root, const Scale& scale, Knowledge& knowledge);

/// Adds the entries of `more` behind those of `all`, list by list.
void add_entries(Knowledge& all, const Knowledge& more);

}  // namespace soot
