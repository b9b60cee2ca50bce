/* The boundary between sootsayer and a plugin that brings engine families. Plain C11: a plugin
 * built by any compiler, with any flags, fits. C++ authors use plugin.hpp instead, which fills in
 * all of this.
 *
 * Rules.
 * 1. Text is UTF-8 ending in NUL; whoever receives a text or a table copies it before the call
 *    returns, and whoever made a thing frees it.
 * 2. The host calls from one thread at a time, never calls back in while a call is running, and may
 *    call init again after deinit; a loaded library stays in memory to the end of the run.
 * 3. No C++ exception, longjmp, exit or signal crosses this boundary, and nothing is written to the
 *    standard streams.
 * 4. A call that cannot answer leaves its result alone, writes the reason to soot.log/1 as
 *    SOOT_ERROR and returns another status than SOOT_OK; numbers handed over are finite.
 * 5. Structs never change within a major version: new things get new ids ("soot.cam-law/2"), and an
 *    id that a side does not know is answered with NULL, which is no error.
 *
 * A plugin is a folder NAME with
 *   plugin.toml       read before any code of the plugin runs:
 *     id = "my-plugin"           small letters, digits, hyphens; equal to soot_entry.plugin_id
 *     version = "1.0.0"          equal to soot_entry.plugin_version
 *     abi = 1                    SOOT_ABI_MAJOR of the header it was built with
 *     library = "my-plugin.so"   a file in the same folder
 *     about = "one line"
 *   my-plugin.so      a shared library whose one exported symbol is `soot_entry`; every symbol that
 *                     it needs must be found when it is loaded:
 *                       cc -std=c11 -shared -fPIC -fvisibility=hidden -o my-plugin.so my-plugin.c
 *   plugin.sha256     the sums of all other files, by which damage on the way is seen, as made by
 *                       sha256sum plugin.toml my-plugin.so > plugin.sha256
 *   and whatever it reads itself (soot.folders/1).
 *
 * In the order of a run: the program compares the sums; loads the library; reads the numbers of
 * soot_entry; calls init, get_factory, count, then for each family info, create, get_extension, the
 * extension's functions, destroy; at the very end deinit. `sootsayer plugin check NAME` does all
 * this twice in a process of its own, with limits (10 s of the processor, 512 MB), and says what is
 * wrong; `sootsayer plugin add NAME` makes the program use it.
 */
#pragma once

#include <stdint.h>

#ifdef __cplusplus
extern "C" {
#endif

#define SOOT_ABI_MAJOR 1 /* must be equal on both sides */
#define SOOT_ABI_MINOR 0 /* grows when an id is added */
#define SOOT_EXPORT __attribute__((visibility("default")))

enum { SOOT_OK = 0, SOOT_BAD_INPUT = 1, SOOT_FAILED = 2 }; /* status of a call */
enum { SOOT_NOTE = 0, SOOT_ERROR = 1 };                    /* severity of a log line */

/* The program, seen from the plugin: one for each plugin, alive with its services from init to the
 * end of deinit. `self` belongs to the host. */
typedef struct soot_host soot_host_t;
struct soot_host {
  uint32_t abi_major;
  uint32_t abi_minor;
  void* self;
  const void* (*get_service)(const soot_host_t* host, const char* service_id);
};

/* Service: what the person should be told. Lines of one plugin beyond twenty, and those written in
 * deinit, are dropped. */
#define SOOT_LOG "soot.log/1"
typedef struct soot_log {
  void (*write)(const soot_host_t* host, int32_t severity, const char* text);
} soot_log_t;

/* Service: where the plugin's data lie. Folder 0 is the plugin's own, where plugin.toml stands;
 * the following ones hold what the person or the shop added; NULL past the last. The texts live as
 * long as the host. */
#define SOOT_FOLDERS "soot.folders/1"
typedef struct soot_folders {
  const char* (*folder)(const soot_host_t* host, uint32_t index);
} soot_folders_t;

/* An engine family as text: TOML 1.0 in the form of the program's own families/NAME.toml, with
 * [family] id equal to `id`. Texts live until deinit. */
typedef struct soot_family_info {
  const char* id;          /* small letters, digits, hyphens */
  const char* tables_name; /* what messages call the text: "families/my-1.toml" */
  const char* tables;
  uint64_t tables_size; /* bytes, without the ending NUL; at most 2 000 000 */
} soot_family_info_t;

/* An engine family as functions: abilities beyond its tables, asked for by id. Alive, with its
 * extensions, from create to destroy. `self` belongs to the plugin. */
typedef struct soot_family soot_family_t;
struct soot_family {
  void* self;
  const void* (*get_extension)(const soot_family_t* family, const char* extension_id);
  void (*destroy)(const soot_family_t* family);
};

/* Extension: the lift law of a pump cam that no named law of a table describes (in the tables:
 * [lift] law = "own"). Angles are crank degrees from firing top centre, negative before it; lift is
 * mm above the base circle. Asked for any angle from -360 to 120. Only the lift of this one stroke
 * counts, also where the cam lifts once a revolution: 0 before its rising flank, strictly rising to
 * the greatest lift, what follows is not used. angle_at answers for every lift between 0 and the
 * greatest, on the rising flank, and comes back to the same place within 0.01 deg. Equal questions
 * get equal answers. */
#define SOOT_CAM_LAW "soot.cam-law/1"
typedef struct soot_cam_law {
  int32_t (*lift_at)(const soot_family_t* family, double crank_deg, double* lift_mm);
  int32_t (*angle_at)(const soot_family_t* family, double lift_mm, double* crank_deg);
} soot_cam_law_t;

/* Factory: the families of a plugin, the same until deinit. info answers for 0 to count - 1; create
 * is given an id that info named, and answers NULL (with a log line) if it cannot make it. */
#define SOOT_FAMILY_FACTORY "soot.family-factory/1"
typedef struct soot_family_factory {
  uint32_t (*count)(void);
  const soot_family_info_t* (*info)(uint32_t index);
  const soot_family_t* (*create)(const soot_host_t* host, const char* family_id);
} soot_family_factory_t;

/* What the library exports. The host reads the four numbers before it calls anything; they stand
 * first in every major version. Then init (SOOT_OK to go on; no deinit follows a failed init),
 * get_factory, the factories' calls, and deinit once everything made is destroyed. */
typedef struct soot_entry {
  uint32_t abi_major;        /* SOOT_ABI_MAJOR */
  uint32_t abi_minor;        /* SOOT_ABI_MINOR */
  uint32_t needs_host_minor; /* least minor of the host with which the plugin can work */
  uint32_t entry_size;       /* sizeof(soot_entry_t) */
  const char* plugin_id;
  const char* plugin_version;
  int32_t (*init)(const soot_host_t* host);
  void (*deinit)(void);
  const void* (*get_factory)(const char* factory_id);
} soot_entry_t;

/* The plugin defines this: const soot_entry_t soot_entry = { SOOT_ABI_MAJOR, ... }; */
extern SOOT_EXPORT const soot_entry_t soot_entry;

#ifdef __cplusplus
}
#endif
