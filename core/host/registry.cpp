#include "core/host/registry.hpp"

#include "core/host/plugin.hpp"

#include <algorithm>
#include <utility>

namespace soot::host {

Registry::Registry(const std::vector<Manifest>& manifests,
                   const std::vector<std::filesystem::path>& data_folders) {
  const auto note = [&](const Problems& more) {
    problems_.insert(problems_.end(), more.begin(), more.end());
  };
  for (const Manifest& manifest : manifests) {
    Result<std::unique_ptr<Plugin>> plugin = Plugin::start(manifest, data_folders);
    if (!plugin) {
      note(plugin.error());
      continue;
    }
    plugins_.push_back(std::move(*plugin));
    Result<std::vector<ServedFamily>> served = plugins_.back()->serve(problems_);
    if (!served) {
      note(served.error());
      continue;
    }
    in_use_.push_back(manifest);
    for (ServedFamily& family : *served)
      add(std::move(family), manifest);
  }
}

Registry::~Registry() {
  while (!plugins_.empty())
    plugins_.pop_back();
}

void Registry::add(ServedFamily family, const Manifest& manifest) {
  const auto first = std::find_if(families_.begin(), families_.end(),
                                  [&](const ServedFamily& f) { return f.id == family.id; });
  if (first == families_.end()) {
    families_.push_back(std::move(family));
    return;
  }
  problems_.push_back(Problem{
      Kind::trouble, Severity::note, Place{manifest.library_path().string()},
      fmt::format("plugin {}: family {} ({}) is passed over: the one of plugin {} ({}) comes first",
                  manifest.id, family.id, family.tables_name, first->plugin_id, first->tables_name),
      ""});
}

}  // namespace soot::host
