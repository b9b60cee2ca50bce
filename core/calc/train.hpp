// The gears between crank and pump cam, from the family's figures: what one tooth and what the lash
// is in crank degrees. In a simple train the same count of teeth passes every mesh, so an idler
// changes neither.
//
// One tooth = 360 / crank teeth, for the cam's gear 720 / N (four-stroke) or 360 / N (two-stroke);
// lash of the train = sum of the meshes / crank gear's pitch radius. Elementary; keeping the lash
// on the working side: TM 9-2815-225-34&P, p. 3-568.
#pragma once

#include "core/calc/flank.hpp"
#include "core/model/family.hpp"

#include <optional>

namespace soot::calc {

/// One tooth out of mesh, crank degrees; from the crank's teeth, else the pump gear's.
std::optional<double> tooth_deg(const Family& family);

/// Pitch radius of the crank's gear, mm: module x teeth / 2.
std::optional<double> crank_gear_radius_mm(const Family& family);

/// Play of the whole train at the crank when every mesh has that much at the pitch line.
std::optional<double> lash_deg(const Family& family, double each_mesh_mm);

/// With every mesh at the upper end of its figure for new gears.
std::optional<double> lash_new_deg(const Family& family);
/// With every mesh at its limit.
std::optional<double> lash_limit_deg(const Family& family);

/// Turns of the pump's camshaft a turn of the crank: 1/2, in a two-stroke 1.
double pump_turns_per_crank(int strokes);

/// What the lash of the train, on the wrong side, makes the cam stand ahead by, as lift at top
/// centre, mm: a lifter set so is low by as much. `flank`: of this family.
std::optional<double> lash_limit_mm(const Family& family, const Flank& flank);

/// Between two firing strokes, crank degrees, evenly spaced: 720 / n, in a two-stroke 360 / n.
double firing_interval_deg(int strokes, int cylinders);

}  // namespace soot::calc
