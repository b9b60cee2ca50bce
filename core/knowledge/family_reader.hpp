// A family's TOML text, as a plugin serves it: [family], [figures], [lift], entries of its own in
// the form of knowledge/, and [[amend]].
#pragma once

#include "core/knowledge/amendment.hpp"
#include "core/knowledge/scale.hpp"
#include "core/model/family.hpp"
#include "core/model/knowledge.hpp"

#include <filesystem>
#include <string>
#include <vector>

namespace soot {

struct ReadFamily {
  Family family;
  Knowledge own;  ///< causes, symptoms, checks, ... that the family adds
  std::vector<Amendment> amendments;
};

/// `name` is what messages call the text. Fails (Kind::data) with all complaints: the order is no
/// permutation of the cylinders, a unit is missing, a limit lies on the wrong side, ...
Result<ReadFamily> read_family(std::string name, std::string text, const Scale& scale);

/// The same of a file; fails too if it cannot be read.
Result<ReadFamily> load_family(const std::filesystem::path& file, const Scale& scale);

}  // namespace soot
