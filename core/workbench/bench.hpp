// Everything that stands ready before a job is asked about: the knowledge and the families that the
// plugins serve. Read once a run.
#pragma once

#include "core/host/consent.hpp"
#include "core/host/registry.hpp"
#include "core/knowledge/loader.hpp"
#include "core/workbench/engine.hpp"
#include "core/workbench/taken_in.hpp"

#include <filesystem>
#include <memory>
#include <string>
#include <vector>

namespace soot {

/// Where things are on this machine.
struct Places {
  std::filesystem::path knowledge;
  std::filesystem::path cases;
  std::vector<std::filesystem::path> plugins;  ///< that came with the program: they are on
  std::vector<std::filesystem::path> data;     ///< of the user; plugins look there for his families
  /// All others, in order of precedence, before `plugins`: on once added.
  std::vector<std::filesystem::path> foreign_plugins = {};
  std::filesystem::path added = {};  ///< where `plugin add` notes what the user wants
  /// The file that keeps the knowledge for the next start (core/knowledge/snapshot.hpp); empty:
  /// none does.
  std::filesystem::path snapshot = {};
};

class Bench {
 public:
  /// Fails on knowledge with errors. A plugin or family that is refused is hidden and named in
  /// troubles(); the rest goes on.
  static Result<std::unique_ptr<Bench>> open(const Places& places);

  const Knowledge& knowledge() const { return loaded_.knowledge; }
  const Scale& scale() const { return loaded_.scale; }
  const Problems& troubles() const { return troubles_; }
  /// Plugins in use.
  const std::vector<host::Manifest>& plugins() const { return registry_->plugins(); }
  /// All that were found, with what keeps them out.
  const std::vector<host::Standing>& standings() const { return standings_; }

  using Served = TakenIn;
  /// In alphabetical order of their ids.
  const std::vector<Served>& families() const { return families_; }

  /// The lift law that a plugin serves for a family of its own arithmetic, also for one whose
  /// tables are refused; else nothing.
  std::shared_ptr<const calc::LiftLaw> own_law(const std::string& family) const;

  /// Fails (Kind::use) on a family that no plugin serves, with the nearest name.
  Result<Engine> engine(const std::string& family) const;

 private:
  Bench() = default;
  void add(const host::ServedFamily& served);

  LoadedKnowledge loaded_;
  std::vector<host::Standing> standings_;
  std::unique_ptr<host::Registry> registry_;
  std::vector<Served> families_;
  Problems troubles_;
};

}  // namespace soot
