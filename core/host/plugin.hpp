// One plugin at work: started, asked for its families, told at the end. What goes wrong with a
// family hides that family; an exception hides all that the plugin brought.
#pragma once

#include "core/base/problem.hpp"
#include "core/host/guarded.hpp"
#include "core/host/manifest.hpp"
#include "core/host/served_family.hpp"
#include "core/host/services.hpp"

#include <sootsayer/plugin.h>

#include <filesystem>
#include <memory>
#include <vector>

namespace soot::host {

/// A family's functions, destroyed when done with.
struct Destroy {
  Guard* guard;
  void operator()(const soot_family_t* family) const;
};
using FamilyPtr = std::unique_ptr<const soot_family_t, Destroy>;

class Plugin {
 public:
  /// Loads and starts it. `data_folders` are those where the person keeps data of his own; `watch`
  /// hears what is done next. A manifest without id takes id and version from the library.
  static Result<std::unique_ptr<Plugin>> start(
      const Manifest& manifest, const std::vector<std::filesystem::path>& data_folders,
      const Watch& watch = {});
  ~Plugin();  ///< deinit
  Plugin(const Plugin&) = delete;
  Plugin& operator=(const Plugin&) = delete;

  /// Its families, with their laws asked. Refused families, and what the plugin logged, are added
  /// to `problems`; fails if the plugin as a whole is to be left out.
  Result<std::vector<ServedFamily>> serve(Problems& problems);

  /// Whether it keeps the rules that no ordinary run would find broken: ids that nobody has, a lift
  /// beyond the cam. Complaints, none if all is well.
  Problems manners(const std::vector<ServedFamily>& families);

  const Manifest& manifest() const { return manifest_; }

 private:
  Plugin(const Manifest& manifest, const soot_entry_t* entry,
         const std::vector<std::filesystem::path>& folders, Guard guard);
  const soot_family_factory_t& factory();
  Result<FamilyPtr> make(const soot_family_factory_t& factory, const std::string& family_id);
  Result<ServedFamily> serve_one(const soot_family_factory_t& factory, std::uint32_t index);
  Result<std::shared_ptr<const calc::LiftLaw>> law_of(const soot_family_factory_t& factory,
                                                      const std::string& family_id);

  Manifest manifest_;
  const soot_entry_t* entry_;
  Services services_;
  Guard guard_;
};

}  // namespace soot::host
