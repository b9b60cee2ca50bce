#include "core/host/registry.hpp"

#include "core/host/plugin.hpp"
#include "core/host/text_families.hpp"

#include <algorithm>
#include <utility>

namespace soot::host {

namespace {
void add_named(Problems& all, const Problems& more, const Manifest& manifest,
               const char* said = ": ") {
  for (Problem problem : more) {
    problem.text = fmt::format("plugin {}{}{}", manifest.id, said, problem.text);
    all.push_back(std::move(problem));
  }
}
}  // namespace

Registry::Registry(const std::vector<Manifest>& manifests,
                   const std::vector<std::filesystem::path>& data_folders) {
  for (const Manifest& manifest : manifests) {
    Problems problems;
    Result<std::vector<ServedFamily>> served = serve(manifest, data_folders, problems);
    add_named(problems_, problems, manifest);
    if (!served) {
      add_named(problems_, served.error(), manifest, " left out: ");
      continue;
    }
    in_use_.push_back(manifest);
    for (ServedFamily& family : *served)
      add(std::move(family), manifest);
  }
}

Result<std::vector<ServedFamily>> Registry::serve(
    const Manifest& manifest, const std::vector<std::filesystem::path>& data_folders,
    Problems& problems) {
  if (manifest.is_text()) return serve_text(manifest, data_folders, problems);
  Result<std::unique_ptr<Plugin>> plugin = Plugin::start(manifest, data_folders);
  if (!plugin) return pass_on(plugin);
  plugins_.push_back(std::move(*plugin));
  return plugins_.back()->serve(problems);
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
      Kind::trouble, Severity::note, Place{manifest.main_file().string()},
      fmt::format("plugin {}: family {} ({}) is passed over: the one of plugin {} ({}) comes first",
                  manifest.id, family.id, family.tables_name, first->plugin_id, first->tables_name),
      ""});
}

}  // namespace soot::host
