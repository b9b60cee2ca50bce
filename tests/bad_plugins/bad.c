/* A plugin by the C header alone, sound but for the one FAULT it is built with. Its cam lifts 8 mm
 * at a constant 0.1 mm/deg from 60 deg before top. What ends or hangs the process is in violent.h.
 */
#include "tests/bad_plugins/violent.h"

#include <sootsayer/plugin.h>

#include <math.h>
#include <stddef.h>
#include <stdio.h>
#include <string.h>

#define HEAD(id)                                                                                \
  "[family]\nid = \"" id "\"\nname = \"" id                                                     \
  "\"\nversion = \"1.0.0\"\nauthor = \"tests\"\n"                                               \
  "cylinders = 1\nfiring-order = [1]\nrotation = \"clockwise seen from the fan\"\nnumbering = " \
  "\"one\"\n"
#define TABLES(id) HEAD(id) "[lift]\nlaw = \"own\"\n"
#define FAMILY(id, text) \
  { id, id ".toml", text, sizeof(text) - 1 }

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
  chatter,
  knows_all_ids,
  answers_past_cam,
  moody,
  null_tables,
  broken_tables,
  huge_tables,
  latin_tables,
  other_family,
  crash_in_init,
  crash_in_create,
  crash_in_lift,
  crash_in_deinit,
  endless_loop,
  sleeps,
  ends_process,
  stack_overflow,
  eats_memory,
  writes_to_stdout
};

static const soot_host_t* the_host;
static int starts;

static void say(int32_t severity, const char* text) {
  const soot_log_t* log = the_host->get_service(the_host, SOOT_LOG);
  if (log != NULL) log->write(the_host, severity, text);
}

static int32_t lift_at(const soot_family_t* family, double crank_deg, double* lift_mm) {
  const double lift = 0.1 * (crank_deg + (FAULT == moody && starts > 1 ? 61 : 60));
  (void)family;
  if (FAULT == crash_in_lift && crank_deg > -30) crash();
  if (FAULT == endless_loop) loop();
  if (FAULT == sleeps) pause_for_ever();
  if (FAULT == stack_overflow) overflow(1);
  if (FAULT == eats_memory) eat();
  if (FAULT == writes_to_stdout && crank_deg == 0) puts("the cam is at top");
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
  if (FAULT != answers_past_cam && !(lift_mm > 0 && lift_mm < 8)) return SOOT_BAD_INPUT;
  *crank_deg = 10 * lift_mm - 60 +
               (FAULT == wrong_way_back        ? 0.02
                : FAULT == moody && starts > 1 ? -1
                                               : 0);
  return SOOT_OK;
}

static const void* get_extension(const soot_family_t* family, const char* id) {
  static const soot_cam_law_t law = {lift_at, angle_at};
  (void)family;
  return FAULT == knows_all_ids || strcmp(id, SOOT_CAM_LAW) == 0 ? &law : NULL;
}

static void destroy(const soot_family_t* family) {
  (void)family;
}

static uint32_t count(void) {
  return FAULT == too_many ? 4000000000U : 2;
}

static const soot_family_info_t* info(uint32_t index) {
  static const soot_family_info_t plain = FAMILY("plain-1", TABLES("plain-1"));
  static const soot_family_info_t odd = FAMILY("odd-1", TABLES("odd-1"));
  static const soot_family_info_t capital = {"Odd 1", "Odd 1.toml", "# odd", 5};
  static const soot_family_info_t long_one = {"odd-1", "odd-1.toml", "# odd", 2};
  static const soot_family_info_t nothing = {"odd-1", "odd-1.toml", NULL, 5};
  static const soot_family_info_t broken = FAMILY("odd-1", HEAD("odd-1") "[figures\nbore = 1\n");
  static const soot_family_info_t latin = FAMILY("odd-1", HEAD("odd-1") "about = \"K\xF6nig\"\n");
  static const soot_family_info_t other = FAMILY("odd-1", TABLES("odd-2"));
  static char hay[3000001];
  static const soot_family_info_t huge = {"odd-1", "odd-1.toml", hay, 3000000};
  if (index == 0) return &plain;
  if (FAULT == info_missing) return NULL;
  if (FAULT == bad_family_id) return &capital;
  if (FAULT == long_tables) return &long_one;
  if (FAULT == null_tables) return &nothing;
  if (FAULT == broken_tables) return &broken;
  if (FAULT == latin_tables) return &latin;
  if (FAULT == other_family) return &other;
  if (FAULT == huge_tables) memset(hay, '#', sizeof hay - 1);
  if (FAULT == huge_tables) return &huge;
  return FAULT == same_family_twice ? &plain : &odd;
}

static const soot_family_t* create(const soot_host_t* host, const char* id) {
  static const soot_family_t family = {NULL, get_extension, destroy};
  (void)host;
  if (FAULT == crash_in_create) crash();
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
  ++starts;
  if (FAULT == crash_in_init) crash();
  if (FAULT == ends_process) exit(0);
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
  if (FAULT == crash_in_deinit) crash();
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
