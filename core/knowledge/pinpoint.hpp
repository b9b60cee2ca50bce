// Where in an entry a name stands. Entries remember their own line only; a name that is wrong is
// looked up in the file again, so that nothing is spent on it while all is well.
#pragma once

#include "core/base/problem.hpp"

#include <map>
#include <string>
#include <string_view>

namespace soot {

class Pinpoint {
 public:
  /// `problem` moved from the line where its entry begins to the place of `"name"` in that entry,
  /// with the source line; as it was if the file cannot be read or the name is not found.
  Problem at(Problem problem, std::string_view name);

 private:
  const std::string& text_of(const std::string& file);
  std::map<std::string, std::string, std::less<>> texts_;
};

}  // namespace soot
