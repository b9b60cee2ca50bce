// A family as a plugin hands it over: tables as text, still to be read by core/knowledge, and its
// own lift law if it has one. Nothing in it calls back into the plugin.
#pragma once

#include "core/calc/lift_law.hpp"

#include <memory>
#include <string>

namespace soot::host {

struct ServedFamily {
  std::string id;
  std::string tables;       ///< TOML, not yet looked at
  std::string tables_name;  ///< what messages call it: "families/hagmoss-4.toml"
  std::string plugin_id;
  std::string plugin_version;
  std::shared_ptr<const calc::LiftLaw> own_law;  ///< none: the tables name a law
};

}  // namespace soot::host
