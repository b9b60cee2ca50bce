// Real faults of which the cause was found, as others wrote them down: one JSON object a line.
#pragma once

#include "core/base/problem.hpp"

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace soot::judges {

struct ToldFinding {
  std::string code;
  bool present = true;
  std::optional<double> value;
  std::string unit;
};

struct ToldCase {
  std::string id;
  std::optional<int> cylinders, strokes;
  std::string pump, chamber, use;  ///< "unknown" where the page does not say
  std::vector<std::string> context, complaint;
  /// In the order in which they became known, up to the one that shows the cause.
  std::vector<ToldFinding> findings;
  std::string cause;
  std::vector<std::string> other_causes;
  int line = 0;
};

/// Fails (Kind::data) with every line that is no such object, or lacks a field.
Result<std::vector<ToldCase>> load_told_cases(const std::filesystem::path& path);

}  // namespace soot::judges
