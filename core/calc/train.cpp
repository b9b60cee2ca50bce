#include "core/calc/train.hpp"

#include <numbers>

namespace soot::calc {
namespace {

double cycle_deg(int strokes) {
  return strokes == 2 ? 360 : 720;
}

}  // namespace

std::optional<double> tooth_deg(const Family& family) {
  if (const auto teeth = family.nominal("crank-teeth"); teeth && *teeth > 0) return 360 / *teeth;
  if (const auto teeth = family.nominal("pump-teeth"); teeth && *teeth > 0)
    return cycle_deg(family.strokes) / *teeth;
  return std::nullopt;
}

std::optional<double> crank_gear_radius_mm(const Family& family) {
  const auto module_mm = family.nominal("gear-module");
  const auto teeth = family.nominal("crank-teeth");
  if (!module_mm || !teeth || !(*module_mm * *teeth > 0)) return std::nullopt;
  return *module_mm * *teeth / 2;
}

std::optional<double> lash_deg(const Family& family, double each_mesh_mm) {
  const auto radius_mm = crank_gear_radius_mm(family);
  const auto meshes = family.nominal("meshes");
  if (!radius_mm || !meshes) return std::nullopt;
  return *meshes * each_mesh_mm / *radius_mm * 180 / std::numbers::pi;
}

std::optional<double> lash_new_deg(const Family& family) {
  const Figure* backlash = family.figure("backlash");
  if (!backlash) return std::nullopt;
  const std::optional<double> each_mm = backlash->high ? backlash->high : backlash->nominal();
  return each_mm ? lash_deg(family, *each_mm) : std::nullopt;
}

std::optional<double> lash_limit_deg(const Family& family) {
  const Figure* backlash = family.figure("backlash");
  return backlash && backlash->most ? lash_deg(family, *backlash->most) : std::nullopt;
}

std::optional<double> lash_limit_mm(const Family& family, const Flank& flank) {
  const std::optional<double> ahead_deg = lash_limit_deg(family);
  return ahead_deg ? std::optional{-flank.depth_shift_mm(-*ahead_deg)} : std::nullopt;
}

double pump_turns_per_crank(int strokes) {
  return 360 / cycle_deg(strokes);
}

double firing_interval_deg(int strokes, int cylinders) {
  return cycle_deg(strokes) / cylinders;
}

}  // namespace soot::calc
