#include "core/knowledge/figure_keys.hpp"

#include <array>
#include <utility>

namespace soot {
namespace {

using Row = std::pair<std::string_view, Dimension>;

constexpr std::array rows{
    // engine and compression
    Row{"bore", Dimension::length}, Row{"stroke", Dimension::length},
    Row{"rod-length", Dimension::length}, Row{"swept-volume", Dimension::volume},
    Row{"flywheel-diameter", Dimension::length}, Row{"rated-speed", Dimension::speed},
    Row{"idle-speed", Dimension::speed}, Row{"no-load-speed", Dimension::speed},
    Row{"cranking-speed", Dimension::speed}, Row{"cranking-least", Dimension::speed},
    Row{"compression-cranking", Dimension::pressure},
    Row{"compression-running", Dimension::pressure}, Row{"compression-spread", Dimension::pressure},
    Row{"valve-clearance-inlet", Dimension::length},
    Row{"valve-clearance-exhaust", Dimension::length},
    // timing, pump and lifter
    Row{"static-timing", Dimension::angle}, Row{"timing-tolerance", Dimension::angle},
    Row{"plunger-diameter", Dimension::length}, Row{"plunger-lift", Dimension::length},
    Row{"plunger-length", Dimension::length}, Row{"pre-stroke", Dimension::length},
    Row{"lift-rate", Dimension::lift_rate}, Row{"foot-at-closing", Dimension::length},
    Row{"lifter-depth", Dimension::length}, Row{"lifter-depth-base", Dimension::length},
    Row{"lifter-thread-pitch", Dimension::length}, Row{"jam-rise", Dimension::length},
    Row{"head-clearance", Dimension::length},
    // delivery and rack
    Row{"effective-stroke", Dimension::length}, Row{"helix-lead", Dimension::length},
    Row{"pinion-radius", Dimension::length}, Row{"rack-pitch", Dimension::length},
    Row{"rack-no-delivery", Dimension::length}, Row{"rack-full", Dimension::length},
    Row{"rack-start", Dimension::length},
    // nozzle and supply
    Row{"nozzle-opening", Dimension::pressure}, Row{"supply-pressure", Dimension::pressure},
    // gears
    Row{"crank-teeth", Dimension::number}, Row{"idler-teeth", Dimension::number},
    Row{"pump-teeth", Dimension::number}, Row{"meshes", Dimension::number},
    Row{"gear-module", Dimension::length}, Row{"backlash", Dimension::length},
    // warm, running
    Row{"oil-pressure", Dimension::pressure}, Row{"coolant-temperature", Dimension::temperature},
    Row{"exhaust-temperature", Dimension::temperature}};

}  // namespace

std::optional<Dimension> dimension_of_figure(std::string_view key) {
  for (const auto& [name, dimension] : rows)
    if (name == key) return dimension;
  return std::nullopt;
}

std::vector<std::string> figure_keys() {
  std::vector<std::string> out;
  for (const auto& [name, dimension] : rows)
    out.emplace_back(name);
  return out;
}

}  // namespace soot
