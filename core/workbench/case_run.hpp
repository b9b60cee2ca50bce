// A prepared case put to the program: what it ranks, and where the truth stands in that.
#pragma once

#include "core/report/answers.hpp"
#include "core/report/cases.hpp"
#include "core/workbench/bench.hpp"

#include <filesystem>
#include <string>
#include <vector>

namespace soot {

/// Every case of the folder by name (the file's stem), in alphabetical order. A file that cannot be
/// read as a case is in `problems`, the rest is listed all the same.
struct CaseShelf {
  std::vector<CaseTitle> titles;
  Problems problems;
};
CaseShelf shelf_of(const std::filesystem::path& folder);

/// Fails (Kind::use) on an unknown name, with the nearest one.
Result<CaseReport> run_case(const Bench& bench, const std::filesystem::path& folder,
                            const std::string& name);

}  // namespace soot
