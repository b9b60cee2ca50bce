/* A plugin by the C header alone, sound but for the one FAULT it is built with. Its cam lifts 8 mm
 * at a constant 0.1 mm/deg from 60 deg before top. */
#include <sootsayer/plugin.h>

#include <math.h>
#include <stddef.h>
#include <string.h>

enum {
  none,
  wrong_major,
  needs_newer,
  wrong_size,
  gaps,
  other_id,
  other_version,
  init_fails,
  no_factory,
  too_many,
  info_missing,
  bad_family_id,
  long_tables,
  create_fails,
  lift_refuses,
  nan_lift,
  negative_lift,
  no_base_circle,
  no_lift,
  falling_flank,
  wrong_way_back,
  same_family_twice,
  chatter
};

static const soot_host_t* the_host;

static void say(int32_t severity, const char* text) {
  const soot_log_t* log = the_host->get_service(the_host, SOOT_LOG);
  if (log != NULL) log->write(the_host, severity, text);
}

static int32_t lift_at(const soot_family_t* family, double crank_deg, double* lift_mm) {
  const double lift = 0.1 * (crank_deg + 60);
  (void)family;
  if (FAULT == lift_refuses && crank_deg > -50) {
    say(SOOT_ERROR, "the cam is unknown from here on");
    return SOOT_BAD_INPUT;
  }
  *lift_mm = lift < 0 || FAULT == no_lift ? 0 : lift > 8 ? 8 : lift;
  if (FAULT == nan_lift && crank_deg > 0) *lift_mm = NAN;
  if (FAULT == negative_lift && crank_deg < -100) *lift_mm = -0.5;
  if (FAULT == no_base_circle) *lift_mm += 1;
  if (FAULT == falling_flank && crank_deg > -20 && crank_deg < 0) *lift_mm = 4;
  return SOOT_OK;
}

static int32_t angle_at(const soot_family_t* family, double lift_mm, double* crank_deg) {
  (void)family;
  *crank_deg = 10 * lift_mm - 60 + (FAULT == wrong_way_back ? 0.02 : 0);
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
  return FAULT == too_many ? 4000000000U : 2;
}

static const soot_family_info_t* info(uint32_t index) {
  static const soot_family_info_t plain = {"plain-1", "plain-1.toml", "# plain", 7};
  static const soot_family_info_t odd = {"odd-1", "odd-1.toml", "# odd", 5};
  static const soot_family_info_t capital = {"Odd 1", "Odd 1.toml", "# odd", 5};
  static const soot_family_info_t long_one = {"odd-1", "odd-1.toml", "# odd", 2};
  if (index == 0) return &plain;
  if (FAULT == info_missing) return NULL;
  if (FAULT == bad_family_id) return &capital;
  if (FAULT == long_tables) return &long_one;
  return FAULT == same_family_twice ? &plain : &odd;
}

static const soot_family_t* create(const soot_host_t* host, const char* id) {
  static const soot_family_t family = {NULL, get_extension, destroy};
  (void)host;
  if (FAULT == create_fails && strcmp(id, "odd-1") == 0) {
    say(SOOT_ERROR, "the pump of odd-1 was never measured");
    return NULL;
  }
  return &family;
}

static const void* get_factory(const char* id) {
  static const soot_family_factory_t factory = {count, info, create};
  return FAULT != no_factory && strcmp(id, SOOT_FAMILY_FACTORY) == 0 ? &factory : NULL;
}

static int32_t init(const soot_host_t* host) {
  the_host = host;
  if (host->get_service(host, "soot.log/2") != NULL) return SOOT_FAILED;
  if (FAULT == init_fails) {
    say(SOOT_ERROR, "families.db is missing");
    return SOOT_FAILED;
  }
  if (FAULT == chatter) {
    say(SOOT_NOTE, "two families measured in 1951");
    for (int i = 0; i < 100; ++i)
      say(SOOT_ERROR, "a\nline \x80 of \xC3\xA9 noise");
  }
  return SOOT_OK;
}

static void deinit(void) {
  the_host = NULL;
}

const soot_entry_t soot_entry = {
    FAULT == wrong_major ? 2 : SOOT_ABI_MAJOR,
    SOOT_ABI_MINOR,
    FAULT == needs_newer ? 7 : 0,
    FAULT == wrong_size ? 48 : sizeof(soot_entry_t),
    FAULT == other_id ? "somebody-else" : PLUGIN_ID,
    FAULT == other_version ? "0.9.0" : "1.0.0",
    FAULT == gaps ? NULL : init,
    deinit,
    get_factory,
};
