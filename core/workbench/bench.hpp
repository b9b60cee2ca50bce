// Everything that stands ready before a job is asked about: the knowledge and the families that the
// plugins serve. Read once a run.
#pragma once

#include "core/host/registry.hpp"
#include "core/knowledge/loader.hpp"
#include "core/workbench/engine.hpp"

#include <filesystem>
#include <memory>
#include <string>
#include <vector>

namespace soot {

/// Where things are on this machine.
struct Places {
  std::filesystem::path knowledge;
  std::filesystem::path cases;
  std::vector<std::filesystem::path> plugins;  ///< in order of precedence
  std::vector<std::filesystem::path> data;     ///< of the user; plugins look there for his families
};

class Bench {
 public:
  /// Fails on knowledge with errors. A plugin or family that is refused is hidden and named in
  /// troubles(); the rest goes on.
  static Result<std::unique_ptr<Bench>> open(const Places& places);

  const Knowledge& knowledge() const { return loaded_.knowledge; }
  const Scale& scale() const { return loaded_.scale; }
  const Problems& troubles() const { return troubles_; }
  const std::vector<host::Manifest>& plugins() const { return registry_->plugins(); }

  struct Served {
    Family family;
    Knowledge own;
    std::shared_ptr<const calc::LiftLaw> law;
  };
  /// In alphabetical order of their ids.
  const std::vector<Served>& families() const { return families_; }

  /// Fails (Kind::use) on a family that no plugin serves, with the nearest name.
  Result<Engine> engine(const std::string& family) const;

 private:
  Bench() = default;
  void add(const host::ServedFamily& served);

  LoadedKnowledge loaded_;
  std::unique_ptr<host::Registry> registry_;
  std::vector<Served> families_;
  Problems troubles_;
};

}  // namespace soot
