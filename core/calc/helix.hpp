// Rack, pinion and helix: how far the rack stands out decides how much of the plunger's lift
// delivers. The port closes at one and the same lift; the helix opens it again after the effective
// stroke, the later the further the plunger is turned.
//
// Turn of the plunger = rack / pinion radius; effective stroke = lead x turn / (2 pi); fuel =
// plunger area x effective stroke (elementary). At STOP the passage to the top stays open for the
// whole stroke and nothing is delivered; longer effective stroke = more fuel: common practice, no
// published source. Leakage and the fuel's compression are left out: real racks stand further out.
#pragma once

#include "core/base/problem.hpp"
#include "core/model/family.hpp"

#include <optional>

namespace soot::calc {

struct Helix {
  double lead_mm = 0;              ///< of the helix, a turn of the plunger; > 0
  double pinion_radius_mm = 0;     ///< pitch radius; > 0
  double no_delivery_mm = 0;       ///< rack from STOP where the effective stroke becomes 0; >= 0
  double plunger_diameter_mm = 0;  ///< > 0
  std::optional<double> most_stroke_mm;  ///< lift left after port closing: no stroke is longer

  /// From the family's figures; fails (Kind::data), naming those that are missing or not above 0.
  static Result<Helix> of(const Family& family);

  double stroke_per_rack() const;  ///< mm of effective stroke a mm of rack
  double area_mm2() const;

  /// 0 up to the rack of no delivery, then in proportion, up to `most_stroke_mm`.
  double stroke_mm(double rack_mm) const;
  /// Nothing for a stroke below 0 or above the most.
  std::optional<double> rack_mm(double stroke_mm) const;

  double fuel_mm3(double stroke_mm) const;
  double stroke_for_fuel_mm(double fuel_mm3) const;
};

/// Pitch of the rack's teeth, mm: the family's rack-pitch, else pi x its rack-module, else pi x 1.0
/// mm, the common module (trade practice).
double rack_tooth_mm(const Family& family);

}  // namespace soot::calc
