#include "core/host/plugin.hpp"

#include "core/host/cam_law.hpp"
#include "core/host/guarded.hpp"
#include "core/host/library.hpp"
#include "core/host/plugin_text.hpp"
#include "core/table/reader.hpp"

#include <utility>

namespace soot::host {

namespace {
constexpr std::uint32_t most_families = 1000;

Problem trouble_of(const Manifest& manifest, std::string text, Severity severity) {
  return Problem{Kind::trouble, severity, Place{manifest.library_path().string()},
                 fmt::format("plugin {}{}", manifest.id, text), ""};
}

std::string left_out(const Problems& why) {
  return " left out: " + to_string(why);
}

/// The family's functions, destroyed when done with.
struct Destroy {
  void operator()(const soot_family_t* family) const {
    try {
      family->destroy(family);
    } catch (...) {  // all answers are in by now
    }
  }
};
}  // namespace

Plugin::Plugin(const Manifest& manifest, const soot_entry_t* entry,
               const std::vector<std::filesystem::path>& folders)
    : manifest_(manifest), entry_(entry), services_(folders) {}

Result<std::unique_ptr<Plugin>> Plugin::start(
    const Manifest& manifest, const std::vector<std::filesystem::path>& data_folders) {
  const auto refuse = [&](const Problems& why) {
    return tl::unexpected(Problems{trouble_of(manifest, left_out(why), Severity::error)});
  };
  const Result<const soot_entry_t*> entry = load_entry(manifest);
  if (!entry) return refuse(entry.error());
  std::vector<std::filesystem::path> folders{manifest.folder};
  folders.insert(folders.end(), data_folders.begin(), data_folders.end());
  std::unique_ptr<Plugin> plugin(new Plugin(manifest, *entry, folders));
  try {
    const int status =
        guarded("init", [&] { return plugin->entry_->init(plugin->services_.handle()); });
    if (status == SOOT_OK) return plugin;
    const std::string reason = plugin->services_.take_reason();
    plugin->entry_ = nullptr;  // no deinit follows a failed init
    return refuse({make_problem(Kind::trouble, "it did not start ({})", reason)});
  } catch (const Fault& fault) {
    plugin->entry_ = nullptr;
    return refuse({make_problem(Kind::trouble, "{}", fault.what())});
  }
}

Plugin::~Plugin() {
  if (entry_ == nullptr) return;
  try {
    entry_->deinit();
  } catch (...) {  // nothing of it is asked for any more
  }
}

Problem Plugin::trouble(std::string text, Severity severity) const {
  return trouble_of(manifest_, std::move(text), severity);
}

Result<std::vector<ServedFamily>> Plugin::serve(Problems& problems) {
  std::vector<ServedFamily> families;
  try {
    const auto* factory = static_cast<const soot_family_factory_t*>(
        guarded("get_factory", [&] { return entry_->get_factory(SOOT_FAMILY_FACTORY); }));
    if (!factory || !factory->count || !factory->info || !factory->create)
      throw Fault("has nothing to offer (expected " SOOT_FAMILY_FACTORY ")");
    const std::uint32_t count = guarded("count", [&] { return factory->count(); });
    if (count > most_families)
      throw Fault(
          fmt::format("says it has {} families (expected at most {})", count, most_families));
    for (std::uint32_t i = 0; i < count; ++i) {
      Result<ServedFamily> family = serve_one(*factory, i);
      if (family)
        families.push_back(std::move(*family));
      else
        problems.push_back(trouble(": " + to_string(family.error())));
    }
  } catch (const Fault& fault) {
    return tl::unexpected(
        Problems{trouble(left_out({make_problem(Kind::trouble, "{}", fault.what())}))});
  }
  for (const Services::Line& line : services_.log())
    problems.push_back(trouble(": " + line.text, line.severity));
  return families;
}

Result<ServedFamily> Plugin::serve_one(const soot_family_factory_t& factory, std::uint32_t index) {
  const soot_family_info_t* info = guarded("info", [&] { return factory.info(index); });
  if (!info) return fail(Kind::trouble, "family {} left out: it is not there", index + 1);
  const std::string id = tidy(info->id);
  const std::string name = tidy(info->tables_name);
  if (!is_id(id))
    return fail(Kind::trouble,
                "family '{}' ({}) left out: its id (expected small letters, digits and hyphens)",
                id, name);
  if (!info->tables || info->tables_size > Document::max_bytes ||
      info->tables[info->tables_size] != '\0')
    return fail(Kind::trouble, "family {} left out: {} (expected up to {} bytes of text)", id,
                "its tables do not end where they should", Document::max_bytes);
  Result<std::shared_ptr<const calc::LiftLaw>> law = law_of(factory, id);
  if (!law) return fail(Kind::trouble, "family {} left out: {}", id, to_string(law.error()));
  return ServedFamily{id,
                      std::string(info->tables, info->tables_size),
                      name.empty() ? id : name,
                      manifest_.id,
                      manifest_.version,
                      std::move(*law)};
}

Result<std::shared_ptr<const calc::LiftLaw>> Plugin::law_of(const soot_family_factory_t& factory,
                                                            const std::string& family_id) {
  const soot_family_t* made =
      guarded("create", [&] { return factory.create(services_.handle(), family_id.c_str()); });
  if (!made) return fail(Kind::trouble, "it was not made ({})", services_.take_reason());
  if (!made->get_extension || !made->destroy)
    return fail(Kind::trouble, "it has gaps (expected two functions)");
  const std::unique_ptr<const soot_family_t, Destroy> family(made);
  const auto* law = static_cast<const soot_cam_law_t*>(
      guarded("get_extension", [&] { return family->get_extension(family.get(), SOOT_CAM_LAW); }));
  if (!law) return nullptr;
  return ask_cam_law(*law, *family, services_);
}

}  // namespace soot::host
