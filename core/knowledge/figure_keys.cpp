#include "core/knowledge/figure_keys.hpp"

#include <algorithm>
#include <array>

namespace soot {
namespace {

using D = Dimension;

constexpr std::string_view engine = "engine";
constexpr std::string_view speed_and_load = "speed and load";
constexpr std::string_view cranking_and_compression =
    "cranking and compression, gauge pressures, warm, at sea level";
constexpr std::string_view gas_exchange = "gas exchange";
constexpr std::string_view timing = "timing";
constexpr std::string_view pump_and_lifter = "pump and lifter";
constexpr std::string_view delivery_and_rack = "delivery and rack";
constexpr std::string_view plunger_and_nozzle = "plunger and nozzle";
constexpr std::string_view gears = "gears";
constexpr std::string_view warm = "warm, running";

constexpr std::array figure_table{
    FigureKey{"bore", D::length, engine, "bore"},
    FigureKey{"stroke", D::length, engine, "stroke"},
    FigureKey{"rod-length", D::length, engine, "connecting rod, centre to centre"},
    FigureKey{"swept-volume", D::volume, engine, "swept volume of a cylinder"},
    FigureKey{"firing-interval", D::angle, engine, "between firing strokes, crank"},
    FigureKey{"compression-ratio", D::number, engine, "compression ratio, geometric"},
    FigureKey{"effective-ratio", D::number, engine, "from where the cylinder is shut"},
    FigureKey{"flywheel-diameter", D::length, engine, "flywheel, rim diameter"},
    FigureKey{"rim-per-degree", D::lift_rate, engine, "rim travel of a crank degree"},
    FigureKey{"rated-speed", D::speed, speed_and_load, "rated speed"},
    FigureKey{"idle-speed", D::speed, speed_and_load, "idle"},
    FigureKey{"no-load-speed", D::speed, speed_and_load, "top speed without load"},
    FigureKey{"overspeed-limit", D::speed, speed_and_load, "never faster than"},
    FigureKey{"governor-droop", D::share, speed_and_load, "governor droop"},
    FigureKey{"mean-effective-pressure", D::pressure, speed_and_load,
              "mean effective pressure at rating"},
    FigureKey{"rated-power", D::power, speed_and_load, "rated power"},
    FigureKey{"piston-speed", D::velocity, speed_and_load, "mean piston speed"},
    FigureKey{"fuel-rate", D::fuel_rate, speed_and_load, "fuel rate"},
    FigureKey{"fuel-at-rating", D::flow, speed_and_load, "fuel at rating"},
    FigureKey{"cranking-speed", D::speed, cranking_and_compression, "cranking speed"},
    FigureKey{"cranking-least", D::speed, cranking_and_compression, "least that fires at 10 C"},
    FigureKey{"compression-cranking", D::pressure, cranking_and_compression,
              "compression at cranking"},
    FigureKey{"compression-running", D::pressure, cranking_and_compression,
              "at rated speed, fuel cut"},
    FigureKey{"compression-spread", D::pressure, cranking_and_compression,
              "largest spread of the cylinders", "several-cylinders"},
    FigureKey{"starting-air", D::pressure, cranking_and_compression, "starting air", "air-start"},
    FigureKey{"valve-clearance-inlet", D::length, gas_exchange, "valve clearance, inlet, cold",
              "valves"},
    FigureKey{"valve-clearance-exhaust", D::length, gas_exchange, "valve clearance, exhaust, cold",
              "valves"},
    FigureKey{"inlet-opens-before-top", D::angle, gas_exchange, "inlet opens before top", "valves"},
    FigureKey{"inlet-closes-after-bottom", D::angle, gas_exchange, "inlet closes after bottom",
              "valves"},
    FigureKey{"exhaust-opens-before-bottom", D::angle, gas_exchange, "exhaust opens before bottom"},
    FigureKey{"exhaust-closes-after-top", D::angle, gas_exchange, "exhaust closes after top",
              "valves"},
    FigureKey{"exhaust-closes-after-bottom", D::angle, gas_exchange, "exhaust closes after bottom",
              "ports"},
    FigureKey{"transfer-opens-before-bottom", D::angle, gas_exchange,
              "transfer opens before bottom", "ports"},
    FigureKey{"transfer-closes-after-bottom", D::angle, gas_exchange,
              "transfer closes after bottom", "ports"},
    FigureKey{"scavenge-pressure", D::pressure, gas_exchange, "scavenge pressure", "ports"},
    FigureKey{"static-timing", D::angle, timing, "pump port closes before top"},
    FigureKey{"timing-tolerance", D::angle, timing, "may be off by"},
    FigureKey{"piston-at-closing", D::length, timing, "piston below top there"},
    FigureKey{"rim-at-closing", D::length, timing, "rim from there to the top mark"},
    FigureKey{"phase-tolerance", D::angle, timing, "phase between cylinders, pump degrees",
              "in-line-pump"},
    FigureKey{"plunger-diameter", D::length, pump_and_lifter, "plunger diameter"},
    FigureKey{"plunger-lift", D::length, pump_and_lifter, "whole lift"},
    FigureKey{"pre-stroke", D::length, pump_and_lifter, "lift before the port closes"},
    FigureKey{"lift-rate", D::lift_rate, pump_and_lifter, "lift of a crank degree at closing"},
    FigureKey{"foot-at-closing", D::length, pump_and_lifter,
              "plunger foot below the face at closing", "individual-pumps"},
    FigureKey{"lifter-depth", D::length, pump_and_lifter, "lifter depth at top centre",
              "individual-pumps"},
    FigureKey{"lifter-depth-base", D::length, pump_and_lifter, "lifter depth on the base circle",
              "individual-pumps"},
    FigureKey{"degrees-per-tenth", D::angle, pump_and_lifter,
              "0.10 mm of lifter is (deeper: later)"},
    FigureKey{"lifter-thread-diameter", D::length, pump_and_lifter, "lifter thread, diameter",
              "lifters"},
    FigureKey{"lifter-thread-pitch", D::length, pump_and_lifter, "lifter thread, pitch", "lifters"},
    FigureKey{"lifter-per-flat", D::length, pump_and_lifter, "one flat of its nut", "lifters"},
    FigureKey{"jam-rise", D::length, pump_and_lifter, "jam nut draws the screw up by", "jam-nut",
              Least::zero},
    FigureKey{"head-clearance", D::length, pump_and_lifter, "least room over the plunger", "",
              Least::zero},
    FigureKey{"fuel-per-injection", D::volume, delivery_and_rack, "fuel of an injection at rating"},
    FigureKey{"effective-stroke", D::length, delivery_and_rack, "effective stroke at rating"},
    FigureKey{"delivery-end-lift", D::length, delivery_and_rack, "lift at the end of delivery"},
    FigureKey{"delivery-angle", D::angle, delivery_and_rack, "delivery at the pump, crank"},
    FigureKey{"helix-lead", D::length, delivery_and_rack, "lead of the helix, a turn"},
    FigureKey{"pinion-radius", D::length, delivery_and_rack, "rack pinion, pitch radius"},
    FigureKey{"stroke-per-rack", D::number, delivery_and_rack, "mm of stroke a mm of rack"},
    FigureKey{"rack-module", D::length, delivery_and_rack, "module of the rack's teeth"},
    FigureKey{"rack-pitch", D::length, delivery_and_rack, "one tooth of the rack"},
    FigureKey{"rack-no-delivery", D::length, delivery_and_rack, "rack from STOP at no delivery", "",
              Least::zero},
    FigureKey{"rack-full", D::length, delivery_and_rack, "rack from STOP at rating"},
    FigureKey{"rack-start", D::length, delivery_and_rack, "rack from STOP for starting"},
    FigureKey{"rack-mark-tolerance", D::length, delivery_and_rack, "racks alike within",
              "several-cylinders"},
    FigureKey{"plunger-length", D::length, plunger_and_nozzle, "plunger length, foot to top edge"},
    FigureKey{"plunger-length-late", D::angle, plunger_and_nozzle, "late at its least length"},
    FigureKey{"plunger-clearance", D::length, plunger_and_nozzle, "plunger clearance on diameter"},
    FigureKey{"nozzle-opening", D::pressure, plunger_and_nozzle, "nozzle opens at"},
    FigureKey{"supply-pressure", D::pressure, plunger_and_nozzle, "fuel supply at the pump"},
    FigureKey{"crank-teeth", D::number, gears, "teeth, crank gear"},
    FigureKey{"idler-teeth", D::number, gears, "teeth, idler", "idler-gear"},
    FigureKey{"pump-teeth", D::number, gears, "teeth, pump cam gear"},
    FigureKey{"gear-module", D::length, gears, "module of the gears"},
    FigureKey{"crank-gear-radius", D::length, gears, "pitch radius of the crank's gear"},
    FigureKey{"tooth-angle", D::angle, gears, "one tooth out, crank"},
    FigureKey{"backlash", D::length, gears, "backlash of each mesh"},
    FigureKey{"meshes", D::number, gears, "meshes between crank and pump cam"},
    FigureKey{"train-lash", D::angle, gears, "whole train, at the crank"},
    FigureKey{"train-lash-depth", D::length, gears, "the same, as lift at top centre"},
    FigureKey{"oil-pressure", D::pressure, warm, "oil pressure", "oil-pump"},
    FigureKey{"coolant-temperature", D::temperature, warm, "coolant", "", Least::any},
    FigureKey{"exhaust-temperature", D::temperature, warm, "exhaust at the port", "", Least::any}};

}  // namespace

std::span<const FigureKey> known_figures() {
  return figure_table;
}

const FigureKey* find_figure_key(std::string_view key) {
  const auto* const found = std::find_if(figure_table.begin(), figure_table.end(),
                                         [&](const FigureKey& row) { return row.key == key; });
  return found == figure_table.end() ? nullptr : found;
}

std::vector<std::string> figure_keys() {
  std::vector<std::string> out;
  for (const FigureKey& row : figure_table)
    out.emplace_back(row.key);
  return out;
}

}  // namespace soot
