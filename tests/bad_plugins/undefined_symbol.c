/* A plugin that needs a function nobody has. */
#include <sootsayer/plugin.h>

int32_t function_nobody_has(const soot_host_t* host);

static void deinit(void) {}

static const void* get_factory(const char* id) {
  (void)id;
  return 0;
}

const soot_entry_t soot_entry = {SOOT_ABI_MAJOR,       SOOT_ABI_MINOR, 0,
                                 sizeof(soot_entry_t), PLUGIN_ID,      "1.0.0",
                                 function_nobody_has,  deinit,         get_factory};
