// What holds for every map of codes: it has each code of its list and no other, and names only what
// the knowledge has.
#pragma once

#include <string>
#include <vector>

namespace soot::judges {

/// `map` from the checkout's root; `codes` beside the checkout, with columns kind and code.
void check_codes(const std::string& map, const std::string& codes);

/// Ids of the `signs` kinds are symptoms, their readings quantities with a value in its unit, their
/// histories one of the five; those of kind `cause` are causes whose grades know the direction.
void check_ids(const std::string& map, const std::vector<std::string>& signs);

}  // namespace soot::judges
