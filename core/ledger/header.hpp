// What the ledger knows of a job besides its lines.
#pragma once

#include <string>

namespace soot::ledger {

struct NewJob {
  std::string family;
  std::string family_version;
  std::string plugin;  ///< id of the plugin that serves the family
  std::string plugin_version;
  std::string engine;  ///< the engine's own name; may be empty
};

struct Header {
  long number = 0;
  NewJob opened_with;
  std::string opened_at;  ///< ISO 8601, UTC
  bool is_open = true;
};

struct Summary {
  Header header;
  long lines = 0;
  std::string last_at;  ///< of the last line, else of the opening
  std::string words;    ///< the last complaint told that stands; may be empty
};

enum class Which { open, closed, all };

}  // namespace soot::ledger
