// What the benches share.
#pragma once

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <functional>
#include <string>
#include <vector>

namespace soot::bench {

inline double median(std::vector<double> values) {
  std::sort(values.begin(), values.end());
  const std::size_t n = values.size();
  return n % 2 == 1 ? values[n / 2] : 0.5 * (values[n / 2 - 1] + values[n / 2]);
}

/// Milliseconds of one call.
inline double once_ms(const std::function<void()>& call) {
  const auto begin = std::chrono::steady_clock::now();
  call();
  return std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - begin)
      .count();
}

/// Median of several calls after one to warm up.
inline double typical_ms(const std::function<void()>& call, int repeats = 5) {
  call();
  std::vector<double> times;
  for (int i = 0; i < repeats; ++i)
    times.push_back(once_ms(call));
  return median(std::move(times));
}

inline void must(bool sound) {
  if (sound) return;
  std::fprintf(stderr, "bench_infer: a call failed, or a model got no exact answer\n");
  std::exit(1);
}

inline void figure(const std::string& name, double value) {
  std::printf("figure %s %.6g\n", name.c_str(), value);
  std::fflush(stdout);
}

/// The parts named on the command line; all of them if none is.
class Wanted {
 public:
  Wanted(int argc, char** argv) : parts_(argv + 1, argv + argc) {}
  bool operator()(const std::string& part) const {
    return parts_.empty() || std::find(parts_.begin(), parts_.end(), part) != parts_.end();
  }

 private:
  std::vector<std::string> parts_;
};

/// Cylinders, present symptoms and readings one by one.
void print_growth();
/// The same noisy-OR models to dlib and to core/infer; random models to the slow truth. `largest`:
/// relative difference.
void judge(double& largest);

}  // namespace soot::bench
