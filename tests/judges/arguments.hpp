// The few words that the measuring programs take on their command line.
#pragma once

#include "core/base/problem.hpp"

#include <map>
#include <string>
#include <vector>

namespace soot::judges {

/// `--name value` pairs; `known` gives the names and what stands for those left out (empty:
/// needed). Fails (Kind::use) on any other word.
Result<std::map<std::string, std::string>> read_arguments(
    const std::vector<std::string>& words, const std::map<std::string, std::string>& known);

/// Prints problems on stderr; the exit code of a program that could not do its work.
int complain(const Problems& problems);

}  // namespace soot::judges
