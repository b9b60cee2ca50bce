// The shape of every struct that crosses the boundary is frozen within a major version: a plugin
// built last year is still out there.
#include <sootsayer/plugin.h>

#include <doctest/doctest.h>

#include <cstddef>
#include <string>

static_assert(SOOT_ABI_MAJOR == 1, "a new major version needs frozen shapes of its own");

static_assert(sizeof(soot_host_t) == 24);
static_assert(offsetof(soot_host_t, abi_major) == 0);
static_assert(offsetof(soot_host_t, abi_minor) == 4);
static_assert(offsetof(soot_host_t, self) == 8);
static_assert(offsetof(soot_host_t, get_service) == 16);

static_assert(sizeof(soot_log_t) == 8);
static_assert(sizeof(soot_folders_t) == 8);

static_assert(sizeof(soot_family_info_t) == 32);
static_assert(offsetof(soot_family_info_t, id) == 0);
static_assert(offsetof(soot_family_info_t, tables_name) == 8);
static_assert(offsetof(soot_family_info_t, tables) == 16);
static_assert(offsetof(soot_family_info_t, tables_size) == 24);

static_assert(sizeof(soot_family_t) == 24);
static_assert(offsetof(soot_family_t, self) == 0);
static_assert(offsetof(soot_family_t, get_extension) == 8);
static_assert(offsetof(soot_family_t, destroy) == 16);

static_assert(sizeof(soot_cam_law_t) == 16);
static_assert(offsetof(soot_cam_law_t, lift_at) == 0);
static_assert(offsetof(soot_cam_law_t, angle_at) == 8);

static_assert(sizeof(soot_family_factory_t) == 24);
static_assert(offsetof(soot_family_factory_t, count) == 0);
static_assert(offsetof(soot_family_factory_t, info) == 8);
static_assert(offsetof(soot_family_factory_t, create) == 16);

static_assert(sizeof(soot_entry_t) == 56);
static_assert(offsetof(soot_entry_t, abi_major) == 0);
static_assert(offsetof(soot_entry_t, abi_minor) == 4);
static_assert(offsetof(soot_entry_t, needs_host_minor) == 8);
static_assert(offsetof(soot_entry_t, entry_size) == 12);
static_assert(offsetof(soot_entry_t, plugin_id) == 16);
static_assert(offsetof(soot_entry_t, plugin_version) == 24);
static_assert(offsetof(soot_entry_t, init) == 32);
static_assert(offsetof(soot_entry_t, deinit) == 40);
static_assert(offsetof(soot_entry_t, get_factory) == 48);

TEST_CASE("the ids and numbers of the boundary stay what they are") {
  CHECK(SOOT_OK == 0);
  CHECK(SOOT_BAD_INPUT == 1);
  CHECK(SOOT_FAILED == 2);
  CHECK(SOOT_NOTE == 0);
  CHECK(SOOT_ERROR == 1);
  CHECK(std::string(SOOT_LOG) == "soot.log/1");
  CHECK(std::string(SOOT_FOLDERS) == "soot.folders/1");
  CHECK(std::string(SOOT_CAM_LAW) == "soot.cam-law/1");
  CHECK(std::string(SOOT_FAMILY_FACTORY) == "soot.family-factory/1");
}
