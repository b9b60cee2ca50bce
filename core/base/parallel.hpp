// Independent pieces of work, as many at once as the machine has processors.
#pragma once

#include <algorithm>
#include <atomic>
#include <cstddef>
#include <future>
#include <thread>
#include <vector>

namespace soot {

/// Is this thread one of as many as there are processors? Then more would only wait for each other.
inline thread_local bool all_processors_busy = false;

/// work(i) for every i below `count`; returns when all are done. What one writes no other may
/// touch. Called from within such work that keeps all processors busy, it starts no threads.
template <class Work>
void in_parallel(std::size_t count, const Work& work) {
  constexpr std::size_t most = 8;
  static const std::size_t processors =
      std::clamp(std::size_t{std::thread::hardware_concurrency()}, std::size_t{1}, most);
  const std::size_t workers = all_processors_busy ? 1 : std::min(count, processors);
  std::atomic<std::size_t> next = 0;
  const auto share = [&] {
    const bool was_busy = all_processors_busy;
    all_processors_busy = was_busy || workers == processors;
    for (std::size_t i = next++; i < count; i = next++)
      work(i);
    all_processors_busy = was_busy;
  };
  std::vector<std::future<void>> others;
  for (std::size_t worker = 1; worker < workers; ++worker)
    others.push_back(std::async(std::launch::async, share));
  share();
  for (std::future<void>& other : others)
    other.get();
}

}  // namespace soot
