// The heap taken ahead: used like any other, and paid for only where it is touched.
#include "core/base/heap.hpp"

#include <doctest/doctest.h>

#include <fstream>
#include <string>
#include <unistd.h>
#include <vector>

namespace {

double resident_mb() {
  long pages = 0, resident = 0;
  std::ifstream("/proc/self/statm") >> pages >> resident;
  return static_cast<double>(resident * sysconf(_SC_PAGESIZE)) / (1 << 20);
}

}  // namespace

TEST_CASE("a heap taken ahead holds what is put there and costs nothing before") {
  const double before = resident_mb();
  REQUIRE(before > 0);
  [[maybe_unused]] const void* const end = sbrk(0);
  soot::take_heap_ahead();
#ifndef __SANITIZE_ADDRESS__  // whose heap is another
  CHECK(static_cast<const char*>(sbrk(0)) - static_cast<const char*>(end) > 30 << 20);
#endif
  CHECK(resident_mb() < before + 4);
  std::vector<std::string> words;
  for (int i = 0; i < 100'000; ++i)
    words.push_back("a word too long to stand in its place, and its number " + std::to_string(i));
  std::vector<char> more(48 << 20, 'm');  // beyond what was taken
  CHECK(words[77'777] == "a word too long to stand in its place, and its number 77777");
  CHECK(more.back() == 'm');
}
