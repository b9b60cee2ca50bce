// A plugin by the helper header whose author throws: fair, and to be told in his words.
#include <sootsayer/plugin.hpp>

namespace {
soot_sdk::Families make_families(const soot_sdk::Host&) {
  throw std::runtime_error("families/odd-1.toml cannot be read");
}
}  // namespace

SOOT_PLUGIN(PLUGIN_ID, "1.0.0", make_families)
