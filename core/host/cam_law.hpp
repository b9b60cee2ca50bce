// Asks a plugin for its lift law, once, and keeps the answers.
#pragma once

#include "core/base/problem.hpp"
#include "core/calc/lift_law.hpp"
#include "core/host/guarded.hpp"
#include "core/host/services.hpp"

#include <sootsayer/plugin.h>

#include <memory>
#include <string>

namespace soot::host {

/// Samples `law` of `family`, which is called `id`, and sees that lift to angle leads back to the
/// same place within 0.01 deg. Throws Fault if the plugin throws.
Result<std::shared_ptr<const calc::LiftLaw>> ask_cam_law(const soot_cam_law_t& law,
                                                         const soot_family_t& family,
                                                         const std::string& id, Services& services,
                                                         Guard& guard);

}  // namespace soot::host
