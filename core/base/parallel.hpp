// Independent pieces of work, as many at once as the machine has processors.
#pragma once

#include <algorithm>
#include <cstddef>
#include <future>
#include <thread>
#include <vector>

namespace soot {

/// work(i) for every i below `count`; returns when all are done. What one writes no other may
/// touch.
template <class Work>
void in_parallel(std::size_t count, const Work& work) {
  constexpr std::size_t most = 8;
  static const std::size_t processors = std::max(std::thread::hardware_concurrency(), 1U);
  const std::size_t workers = std::min({count, processors, most});
  const auto every = [&](std::size_t first) {
    for (std::size_t i = first; i < count; i += workers)
      work(i);
  };
  std::vector<std::future<void>> others;
  for (std::size_t worker = 1; worker < workers; ++worker)
    others.push_back(std::async(std::launch::async, every, worker));
  every(0);
  for (std::future<void>& other : others)
    other.get();
}

}  // namespace soot
