// Diesel fuel as the pump meets it: how thick, how dense, how stiff.
//
// Viscosity by temperature: Walther's rule of ASTM D341, log10 log10(nu + 0.7) = A - B log10 T, for
// a fuel of 3.0 mm2/s at 40 C and 1.2 at 100 C, inside the limits of ASTM D975 for No. 2 (1.9 to
// 4.1 at 40 C); from 1.5 mm2/s upwards. Density 845 kg/m3 at 15 C less 0.68 a degree (from memory).
// Compressibility 75 to 80 millionths a bar: Ganesan, Internal Combustion Engines, ch. 9; sound
// runs at sqrt(K / density).
#pragma once

namespace soot::calc {

inline constexpr double least_fuel_c = -20;
inline constexpr double most_fuel_c = 80;

double fuel_viscosity_mm2_s(double temperature_c);
double fuel_density_kg_l(double temperature_c);
/// Dynamic, mPa s.
double fuel_viscosity_mpa_s(double temperature_c);

inline constexpr double compressibility_per_bar = 75e-6;

/// Metres a second.
double fuel_sound_m_s(double density_kg_l, double compressibility);

/// Volume that must be pressed in before a closed space of that volume has risen by so many bar.
double pressed_in(double volume, double rise_bar, double compressibility);

}  // namespace soot::calc
