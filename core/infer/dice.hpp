// Chance that is the same on any machine for one seed: the standard library's distributions differ
// between libraries. Generator: splitmix64 (Steele, Lea and Flood, OOPSLA 2014).
#pragma once

#include <cmath>
#include <cstddef>
#include <cstdint>

namespace soot::infer {

class Dice {
 public:
  explicit Dice(std::uint64_t seed) : state_(seed) { state_ = next() ^ (seed << 32); }
  std::uint64_t next() {
    std::uint64_t z = (state_ += 0x9E3779B97F4A7C15ULL);
    z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9ULL;
    z = (z ^ (z >> 27)) * 0x94D049BB133111EBULL;
    return z ^ (z >> 31);
  }
  double real(double from, double to) {
    return from + (to - from) * (static_cast<double>(next() >> 11) * 0x1p-53);
  }
  int whole(int from, int to) {
    return from + static_cast<int>(next() % static_cast<std::uint64_t>(to - from + 1));
  }
  std::size_t below(std::size_t size) { return static_cast<std::size_t>(next() % size); }
  bool chance(double p) { return real(0, 1) < p; }
  /// Standard normal (Box and Muller).
  double normal() {
    const double radius = std::sqrt(-2 * std::log(1 - real(0, 1)));
    return radius * std::cos(6.283185307179586477 * real(0, 1));
  }

 private:
  std::uint64_t state_;
};

}  // namespace soot::infer
