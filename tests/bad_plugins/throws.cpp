// A plugin that lets C++ exceptions cross the boundary, against the rules: in init or in its law.
#include <sootsayer/plugin.h>

#include <stdexcept>

namespace {

enum Fault { throws_in_init, throws_in_lift };

std::int32_t init(const soot_host_t*) {
  if (FAULT == throws_in_init) throw std::runtime_error("no\tgear\nfound");
  return SOOT_OK;
}

void deinit() {}

std::int32_t lift_at(const soot_family_t*, double, double*) {
  throw 42;
}
std::int32_t angle_at(const soot_family_t*, double, double*) {
  return SOOT_FAILED;
}
const soot_cam_law_t law = {lift_at, angle_at};

const void* get_extension(const soot_family_t*, const char*) {
  return &law;
}
void destroy(const soot_family_t*) {}
const soot_family_t family = {nullptr, get_extension, destroy};
const soot_family_info_t families[] = {{"sound-1", "sound-1.toml", "", 0},
                                       {"throwing-1", "throwing-1.toml", "", 0}};

std::uint32_t count() {
  return 2;
}
const soot_family_info_t* info(std::uint32_t index) {
  return &families[index];
}
const soot_family_t* create(const soot_host_t*, const char*) {
  return &family;
}
const soot_family_factory_t factory = {count, info, create};

const void* get_factory(const char*) {
  return &factory;
}

}  // namespace

const soot_entry_t soot_entry = {SOOT_ABI_MAJOR, SOOT_ABI_MINOR, 0,    sizeof(soot_entry_t),
                                 PLUGIN_ID,      "1.0.0",        init, deinit,
                                 get_factory};
