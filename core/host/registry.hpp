// All plugins of a run: loaded from their manifests in order, asked for everything they have, and
// kept until the end of main, where the Registry goes out of scope and tells them so in reverse
// order. Between these two nothing of a plugin runs.
#pragma once

#include "core/base/problem.hpp"
#include "core/host/manifest.hpp"
#include "core/host/served_family.hpp"

#include <filesystem>
#include <memory>
#include <vector>

namespace soot::host {

class Plugin;

class Registry {
 public:
  /// `data_folders`: where the person or the shop keeps data for plugins; `families/` in one of
  /// them holds the families that the person wrote.
  explicit Registry(const std::vector<Manifest>& manifests,
                    const std::vector<std::filesystem::path>& data_folders = {});
  ~Registry();
  Registry(const Registry&) = delete;
  Registry& operator=(const Registry&) = delete;

  /// In the order of the plugins; of two with one id the first counts.
  const std::vector<ServedFamily>& families() const { return families_; }
  /// Plugins in use.
  const std::vector<Manifest>& plugins() const { return in_use_; }
  /// Refused plugins and families, and what plugins had to say; kind `trouble`.
  const Problems& problems() const { return problems_; }

 private:
  Result<std::vector<ServedFamily>> serve(const Manifest& manifest,
                                          const std::vector<std::filesystem::path>& data_folders,
                                          Problems& problems);
  void add(ServedFamily family, const Manifest& manifest);

  std::vector<std::unique_ptr<Plugin>> plugins_;
  std::vector<ServedFamily> families_;
  std::vector<Manifest> in_use_;
  Problems problems_;
};

}  // namespace soot::host
