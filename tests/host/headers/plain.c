/* The boundary's header by itself, as C. */
#include <sootsayer/plugin.h>

int32_t major_of(const soot_entry_t* entry);
int32_t major_of(const soot_entry_t* entry) {
  return (int32_t)entry->abi_major;
}
