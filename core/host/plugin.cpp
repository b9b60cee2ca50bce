#include "core/host/plugin.hpp"

#include "core/host/cam_law.hpp"
#include "core/host/library.hpp"
#include "core/host/plugin_text.hpp"
#include "core/table/reader.hpp"

#include <utility>

namespace soot::host {

namespace {
constexpr std::uint32_t most_families = 1000;

Problem trouble_of(const Manifest& manifest, std::string text,
                   Severity severity = Severity::error) {
  return {Kind::trouble, severity, Place{manifest.main_file().string()}, std::move(text), ""};
}

tl::unexpected<Problems> refuse(const Manifest& manifest, std::string why) {
  return tl::unexpected(Problems{trouble_of(manifest, std::move(why))});
}
}  // namespace

void Destroy::operator()(const soot_family_t* family) const {
  try {
    guard->step("destroy");
    family->destroy(family);
  } catch (...) {  // all answers are in by now
  }
}

Plugin::Plugin(const Manifest& manifest, const soot_entry_t* entry,
               const std::vector<std::filesystem::path>& folders, Guard guard)
    : manifest_(manifest), entry_(entry), services_(folders), guard_(std::move(guard)) {
  if (!manifest_.id.empty()) return;
  manifest_.id = tidy(entry->plugin_id);
  manifest_.version = tidy(entry->plugin_version);
}

Result<std::unique_ptr<Plugin>> Plugin::start(
    const Manifest& manifest, const std::vector<std::filesystem::path>& data_folders,
    const Watch& watch) {
  Guard guard(watch);
  guard.step("loading");
  const Result<const soot_entry_t*> entry = load_entry(manifest);
  if (!entry) return refuse(manifest, to_string(entry.error()));
  std::vector<std::filesystem::path> folders{manifest.folder};
  folders.insert(folders.end(), data_folders.begin(), data_folders.end());
  std::unique_ptr<Plugin> plugin(new Plugin(manifest, *entry, folders, std::move(guard)));
  try {
    const int status =
        plugin->guard_("init", [&] { return plugin->entry_->init(plugin->services_.handle()); });
    if (status == SOOT_OK) return plugin;
    plugin->entry_ = nullptr;  // no deinit follows a failed init
    return refuse(manifest, fmt::format("it did not start ({})", plugin->services_.take_reason()));
  } catch (const Fault& fault) {
    plugin->entry_ = nullptr;
    return refuse(manifest, fault.what());
  }
}

Plugin::~Plugin() {
  if (entry_ == nullptr) return;
  try {
    guard_("deinit", [&] { entry_->deinit(); });
  } catch (const Fault&) {  // nothing of it is asked for any more
  }
}

const soot_family_factory_t& Plugin::factory() {
  const auto* factory = static_cast<const soot_family_factory_t*>(
      guard_("get_factory", [&] { return entry_->get_factory(SOOT_FAMILY_FACTORY); }));
  if (!factory || !factory->count || !factory->info || !factory->create)
    throw Fault("has nothing to offer (expected " SOOT_FAMILY_FACTORY ")");
  return *factory;
}

Result<std::vector<ServedFamily>> Plugin::serve(Problems& problems) {
  std::vector<ServedFamily> families;
  try {
    const soot_family_factory_t& families_of = factory();
    const std::uint32_t count = guard_("count", [&] { return families_of.count(); });
    if (count > most_families)
      throw Fault(
          fmt::format("says it has {} families (expected at most {})", count, most_families));
    for (std::uint32_t i = 0; i < count; ++i) {
      Result<ServedFamily> family = serve_one(families_of, i);
      if (family)
        families.push_back(std::move(*family));
      else
        problems.push_back(trouble_of(manifest_, to_string(family.error())));
    }
  } catch (const Fault& fault) {
    return refuse(manifest_, fault.what());
  }
  for (const Services::Line& line : services_.log())
    problems.push_back(trouble_of(manifest_, line.text, line.severity));
  return families;
}

Result<ServedFamily> Plugin::serve_one(const soot_family_factory_t& factory, std::uint32_t index) {
  const soot_family_info_t* info = guard_("info", [&] { return factory.info(index); });
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

Result<FamilyPtr> Plugin::make(const soot_family_factory_t& factory, const std::string& family_id) {
  const soot_family_t* made = guard_("create of " + family_id, [&] {
    return factory.create(services_.handle(), family_id.c_str());
  });
  if (!made) return fail(Kind::trouble, "it was not made ({})", services_.take_reason());
  if (!made->get_extension || !made->destroy)
    return fail(Kind::trouble, "it has gaps (expected two functions)");
  return FamilyPtr(made, Destroy{&guard_});
}

Result<std::shared_ptr<const calc::LiftLaw>> Plugin::law_of(const soot_family_factory_t& factory,
                                                            const std::string& family_id) {
  const Result<FamilyPtr> made = make(factory, family_id);
  if (!made) return pass_on(made);
  const soot_family_t& family = **made;
  const auto* law = static_cast<const soot_cam_law_t*>(guard_("get_extension of " + family_id, [&] {
    return family.get_extension(&family, SOOT_CAM_LAW);
  }));
  if (!law) return nullptr;
  return ask_cam_law(*law, family, family_id, services_, guard_);
}

}  // namespace soot::host
