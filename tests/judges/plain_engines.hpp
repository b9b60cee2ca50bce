// Engines to put other people's questions to: a family, usually the plain one of
// tests/data/plain.toml, with as many cylinders and with the parts that the question speaks of.
#pragma once

#include "core/base/problem.hpp"
#include "core/knowledge/family_reader.hpp"
#include "core/knowledge/loader.hpp"
#include "core/report/answers.hpp"
#include "core/workbench/engine.hpp"

#include <filesystem>
#include <map>
#include <memory>
#include <set>
#include <string>
#include <vector>

namespace soot::judges {

class PlainEngines {
 public:
  /// Fails with what is wrong in either.
  static Result<PlainEngines> open(const std::filesystem::path& knowledge,
                                   const std::filesystem::path& family);

  const Knowledge& knowledge() const { return loaded_->knowledge; }
  /// Features of the plain family itself, as many cylinders as asked.
  std::set<std::string> plain(int cylinders) const;
  /// `features` and what `needs` asks besides; a part that cannot stand beside a needed one gives
  /// way (two-stroke for four-stroke, one way of starting for another).
  std::set<std::string> with(std::set<std::string> features,
                             const std::vector<std::string>& needs) const;
  /// Made once for each number and set of features.
  Result<const Engine*> engine(int cylinders, const std::set<std::string>& features);

 private:
  PlainEngines() = default;

  std::shared_ptr<const LoadedKnowledge> loaded_;
  Family family_;
  std::map<std::pair<int, std::set<std::string>>, std::unique_ptr<Engine>> made_;
};

}  // namespace soot::judges
