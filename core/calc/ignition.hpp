// How long fuel waits in hot air before it burns.
//
// Wolfer (1938): 0.44 ms p^-1.19 exp(4650 / T), p in atm, fitted from 8 to 48 atm and 590 to 782 K,
// cetane above 50 (constants from memory, as quoted in Heywood 1988, table 10.3).
// Hardenberg and Hase, SAE 790493 (1979; original not read): (0.36 + 0.22 Sp) exp(E (1/RT -
// 1/17190) + or x (21.2 / (p - 12.4))^0.63) degrees, E = 618840 / (CN + 25), p in bar. Two forms
// are in circulation, with the two terms added or multiplied; the sum stays near Wolfer, the
// product gives a third of it.
#pragma once

namespace soot::calc {

/// Milliseconds of crank degrees, and back; speed > 0.
double ms_of_deg(double angle_deg, double speed_rpm);
double deg_of_ms(double time_ms, double speed_rpm);

inline constexpr double wolfer_least_atm = 8, wolfer_most_atm = 48;
inline constexpr double wolfer_least_k = 590, wolfer_most_k = 782;

double wolfer_ms(double pressure_bar, double temperature_k);

struct Charge {
  double temperature_k = 0;
  double pressure_bar = 0;  ///< absolute, above 12.4
  double cetane = 50;
  double piston_m_s = 0;  ///< mean piston speed
};

enum class HardenbergForm { sum, product };

double activation_j_mol(double cetane);
double hardenberg_deg(const Charge& charge, HardenbergForm form);

}  // namespace soot::calc
