// The source tree as a list of texts, for the tests that read the project itself. Build folders and
// the version control's own are left out, so that a checkout and an unpacked archive look the same.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace soot::test {

struct SourceFile {
  std::string path;  ///< from the root of the tree, with slashes
  std::string text;

  bool is_below(std::string_view folder) const;  ///< "core/"
  bool ends_with(std::string_view ending) const { return path.ends_with(ending); }
};

/// Every file, in alphabetical order of the paths.
const std::vector<SourceFile>& source_tree();

/// What stands at the top, files and folders.
std::vector<std::string> top_level();

std::vector<std::string> lines_of(std::string_view text);

}  // namespace soot::test
