/* A plugin written against the header of version 1 as it was released, which stands beside it and
 * is not changed any more. Every later program loads it. Its cam lifts 8 mm at 0.1 mm/deg from 60
 * deg before top. */
#include <sootsayer/plugin.h>

#include <string.h>

static const char tables[] =
    "[family]\n"
    "id = \"old-1\"\n"
    "name = \"Old single\"\n"
    "version = \"1.0.0\"\n"
    "author = \"tests\"\n"
    "cylinders = 1\n"
    "firing-order = [1]\n"
    "rotation = \"clockwise seen from the flywheel\"\n"
    "numbering = \"there is only one\"\n"
    "[lift]\n"
    "law = \"own\"\n"
    "[figures]\n"
    "bore = \"110 mm\"\n";

static int32_t lift_at(const soot_family_t* family, double crank_deg, double* lift_mm) {
  const double lift = 0.1 * (crank_deg + 60);
  (void)family;
  *lift_mm = lift < 0 ? 0 : lift > 8 ? 8 : lift;
  return SOOT_OK;
}

static int32_t angle_at(const soot_family_t* family, double lift_mm, double* crank_deg) {
  (void)family;
  if (!(lift_mm > 0 && lift_mm < 8)) return SOOT_BAD_INPUT;
  *crank_deg = 10 * lift_mm - 60;
  return SOOT_OK;
}

static const void* get_extension(const soot_family_t* family, const char* id) {
  static const soot_cam_law_t law = {lift_at, angle_at};
  (void)family;
  return strcmp(id, SOOT_CAM_LAW) == 0 ? &law : NULL;
}

static void destroy(const soot_family_t* family) {
  (void)family;
}

static uint32_t count(void) {
  return 1;
}

static const soot_family_info_t* info(uint32_t index) {
  static const soot_family_info_t old = {"old-1", "old-1.toml", tables, sizeof tables - 1};
  return index == 0 ? &old : NULL;
}

static const soot_family_t* create(const soot_host_t* host, const char* id) {
  static const soot_family_t family = {NULL, get_extension, destroy};
  (void)host;
  (void)id;
  return &family;
}

static const void* get_factory(const char* id) {
  static const soot_family_factory_t factory = {count, info, create};
  return strcmp(id, SOOT_FAMILY_FACTORY) == 0 ? &factory : NULL;
}

static int32_t init(const soot_host_t* host) {
  const soot_log_t* log = host->get_service(host, SOOT_LOG);
  const soot_folders_t* folders = host->get_service(host, SOOT_FOLDERS);
  if (log == NULL || folders == NULL || folders->folder(host, 0) == NULL) return SOOT_FAILED;
  log->write(host, SOOT_NOTE, "built against version 1.0");
  return SOOT_OK;
}

static void deinit(void) {}

const soot_entry_t soot_entry = {
    SOOT_ABI_MAJOR, SOOT_ABI_MINOR, 0,      sizeof(soot_entry_t), "old",
    "1.0.0",        init,           deinit, get_factory,
};
