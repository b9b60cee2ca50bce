// Rows of a comma-separated file with a head line (RFC 4180), by the names of its columns.
#pragma once

#include "core/base/problem.hpp"

#include <filesystem>
#include <map>
#include <string>
#include <vector>

namespace soot::judges {

using Row = std::map<std::string, std::string>;

/// Every column of `wanted` is in every row. Fails (Kind::data) on a file that cannot be read,
/// lacks a wanted column, has a row of another length than its head or a quote that never ends.
Result<std::vector<Row>> read_rows(const std::filesystem::path& path,
                                   const std::vector<std::string>& wanted);

}  // namespace soot::judges
