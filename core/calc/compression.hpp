// The end of compression: pressure and temperature of the air in a cylinder that does not fire.
//
// p2 = p1 r^n, T2 = T1 r^(n-1), r from the moment the inlet shuts: the polytropic rule of any
// textbook (Heywood 1988). n is what heat loss and blow-by leave of about 1.38; both act for a time
// that goes with 1 / speed, heat by conduction with its root. So 1.38 - n is taken to go with
// 1 / sqrt(speed): judgement, held against one cycle calculation of a large cylinder turned at 47
// to 103 rpm, which it follows within a tenth of the loss; no published figure.
#pragma once

namespace soot::calc {

inline constexpr double warm_exponent = 1.38;  // at speed, from memory

/// Absolute pressures, in one unit; `ratio` > 1.
double end_pressure(double start_pressure, double ratio, double exponent);
/// The exponent that leads from one pressure to the other.
double compression_exponent(double pressure_ratio, double ratio);
/// At another cranking speed; speeds > 0 in one unit.
double exponent_at_speed(double exponent, double its_speed, double speed);
/// Kelvin at the end: T1 (p2 / p1) / r, for a charge that leaks little.
double end_temperature_k(double start_k, double pressure_ratio, double ratio);

}  // namespace soot::calc
