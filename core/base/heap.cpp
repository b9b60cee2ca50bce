#include "core/base/heap.hpp"

#include <cstdint>
#include <cstdlib>
#include <malloc.h>
#include <sys/mman.h>
#include <unistd.h>

namespace soot {

void take_heap_ahead() {
  constexpr std::intptr_t huge = 2 << 20;
  constexpr int ahead = 32 << 20, little = 128 << 10;
  // malloc() allows for a break that others moved; it begins anew a little before a border of huge
  // pages, as what it writes to at once gets small ones.
  const auto end = reinterpret_cast<std::intptr_t>(sbrk(0));
  const std::intptr_t gap = (2 * huge - 2 * little - end % huge) % huge;
  if (sbrk(gap) == reinterpret_cast<void*>(-1)) return;
  mallopt(M_MMAP_THRESHOLD, ahead);
  mallopt(M_TRIM_THRESHOLD, 2 * ahead);
  mallopt(M_TOP_PAD, ahead);
  char* const begin = static_cast<char*>(sbrk(0)) + 2 * little;
  void* volatile more = std::malloc(little);
  std::free(more);
  mallopt(M_TOP_PAD, little);  // what is wanted beyond comes in small portions again
  const auto taken = static_cast<char*>(sbrk(0)) - begin;
  if (taken > 0) madvise(begin, static_cast<std::size_t>(taken), MADV_HUGEPAGE);
}

}  // namespace soot
