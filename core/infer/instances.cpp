#include "core/infer/instances.hpp"

namespace soot::infer {

Instances::Instances(const Network& network)
    : first_(network.causes.size()), count_(network.causes.size()) {
  for (const Scope scope : {Scope::engine, Scope::cylinder}) {
    for (std::size_t cause = 0; cause < network.causes.size(); ++cause) {
      if (network.causes[cause].scope != scope) continue;
      first_[cause] = keys_.size();
      if (scope == Scope::engine) {
        keys_.push_back({cause, 0});
      } else {
        for (int cylinder = 1; cylinder <= network.cylinders; ++cylinder)
          keys_.push_back({cause, cylinder});
      }
      count_[cause] = keys_.size() - first_[cause];
    }
  }
}

std::size_t Instances::index_of(std::size_t cause, int cylinder) const {
  return first_[cause] + static_cast<std::size_t>(cylinder > 0 ? cylinder - 1 : 0);
}

}  // namespace soot::infer
