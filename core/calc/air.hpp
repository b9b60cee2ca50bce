// The air outside by height: pressure, temperature and density of the standard atmosphere.
//
// p = p0 (1 - 0.0065 h / 288.15)^5.25588, T = 288.15 K - 0.0065 K/m h: ICAO Doc 7488 (1993), table
// A; constants from memory. Holds up to 11,000 m; `most_height_m` is where engines end.
#pragma once

namespace soot::calc {

inline constexpr double least_height_m = -430;  // the lowest shore
inline constexpr double most_height_m = 5000;   // the highest mines and railways
inline constexpr double kelvin = 273.15;

double air_pressure_bar(double height_m);
double air_temperature_k(double height_m);
/// Against sea level.
double air_density_share(double height_m);

}  // namespace soot::calc
