#include "core/calc/leakage.hpp"

#include <numbers>

namespace soot::calc {

double gap_leak_mm3_s(const PlungerGap& gap, double pressure_bar, double viscosity_mpa_s) {
  constexpr double mpa_in_bar = 0.1;
  constexpr double mpa_s_in_mpa_s = 1e-9;  // a millipascal second in MPa s
  const double cube = gap.radial_mm * gap.radial_mm * gap.radial_mm;
  return std::numbers::pi * gap.diameter_mm * cube * pressure_bar * mpa_in_bar /
         (12 * viscosity_mpa_s * mpa_s_in_mpa_s * gap.length_mm) *
         (1 + 1.5 * gap.eccentricity * gap.eccentricity);
}

}  // namespace soot::calc
