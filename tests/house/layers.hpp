// Who may include whom: the table of the layers, and what breaks it in a list of files.
#pragma once

#include "tests/house/tree.hpp"

#include <string>
#include <vector>

namespace soot::test {

/// One sentence an include against the table, or a source that falls under no rule. Empty = good.
std::vector<std::string> against_the_layers(const std::vector<SourceFile>& files);

}  // namespace soot::test
