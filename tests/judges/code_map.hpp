// A map from the codes of somebody else's table to the ids of the knowledge. One TOML table a kind
// of code; each code has
//
//   hard-start = ["hard-start"]                         ids, at most four
//   cranks-well = ["not slow-crank"]                    a sign that speaks against itself
//   inj-timing-late = ["timing-off:late"]               a cause in one direction: a word of its
//   grades just-serviced = { history = "just-serviced" }       what it says of the history (`ids`
//   may go on) frost = { reading = "air-temperature", value = "-3 C" }   a reading; without a
//   value, the told one turbo-surge = "no turbocharger on these engines"    left out, and why
#pragma once

#include "core/base/problem.hpp"

#include <filesystem>
#include <map>
#include <string>
#include <vector>

namespace soot::judges {

/// "not hunts" is {hunts, "", true}; "timing-off:late" is {timing-off, late, false}.
struct MappedId {
  std::string id;
  std::string direction;
  bool denied = false;
};

struct Mapped {
  std::vector<MappedId> ids;
  std::string history;   ///< empty: says nothing of it
  std::string reading;   ///< id of a quantity; empty: none
  std::string value;     ///< with its unit; empty: the value told
  std::string left_out;  ///< why; empty: not left out
  Place place;
};

using CodeTable = std::map<std::string, Mapped>;
using CodeMap = std::map<std::string, CodeTable>;  ///< by kind of code

/// Fails (Kind::data) with all complaints: no TOML, a code without an entry's shape, five ids, a
/// reason of nothing.
Result<CodeMap> load_code_map(const std::filesystem::path& path);

inline constexpr std::size_t most_ids = 4;

}  // namespace soot::judges
