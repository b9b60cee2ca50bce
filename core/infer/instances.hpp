// Internal to core/infer. Numbers the instances of the causes: an engine-wide cause has one, a
// cylinder's cause one a cylinder. Engine-wide causes come first, then by cause and cylinder.
#pragma once

#include "core/infer/network.hpp"

#include <cstddef>
#include <vector>

namespace soot::infer {

struct InstanceKey {
  std::size_t cause = 0;
  int cylinder = 0;  ///< 0 for an engine-wide cause
};

class Instances {
 public:
  explicit Instances(const Network& network);

  std::size_t size() const { return keys_.size(); }
  const InstanceKey& operator[](std::size_t index) const { return keys_[index]; }
  /// Of a cause; `cylinder` is 0 for an engine-wide one.
  std::size_t index_of(std::size_t cause, int cylinder) const;
  /// All instances of a cause are neighbours: the first, and how many.
  std::size_t first_of(std::size_t cause) const { return first_[cause]; }
  std::size_t count_of(std::size_t cause) const { return count_[cause]; }

 private:
  std::vector<InstanceKey> keys_;
  std::vector<std::size_t> first_;
  std::vector<std::size_t> count_;
};

/// A symptom or quantity of `cylinder` (0: of the engine) hears this instance.
inline bool hears(int cylinder, const InstanceKey& instance) {
  return cylinder == 0 || instance.cylinder == 0 || instance.cylinder == cylinder;
}

}  // namespace soot::infer
