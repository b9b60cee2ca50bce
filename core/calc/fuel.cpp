#include "core/calc/fuel.hpp"

#include "core/calc/air.hpp"

#include <cmath>

namespace soot::calc {
namespace {

// Through 3.0 mm2/s at 40 C and 1.2 at 100 C.
constexpr double walther_a = 9.8935;
constexpr double walther_b = 4.0625;

constexpr double density_at_15_kg_l = 0.845;
constexpr double density_fall_kg_l = 0.00068;

}  // namespace

double fuel_viscosity_mm2_s(double temperature_c) {
  const double log_log = walther_a - walther_b * std::log10(temperature_c + kelvin);
  return std::pow(10, std::pow(10, log_log)) - 0.7;
}

double fuel_density_kg_l(double temperature_c) {
  return density_at_15_kg_l - density_fall_kg_l * (temperature_c - 15);
}

double fuel_viscosity_mpa_s(double temperature_c) {
  return fuel_viscosity_mm2_s(temperature_c) * fuel_density_kg_l(temperature_c);
}

double fuel_sound_m_s(double density_kg_l, double compressibility) {
  constexpr double pa_in_bar = 1e5;
  constexpr double kg_m3_in_kg_l = 1000;
  return std::sqrt(pa_in_bar / compressibility / (density_kg_l * kg_m3_in_kg_l));
}

double pressed_in(double volume, double rise_bar, double compressibility) {
  return volume * rise_bar * compressibility;
}

}  // namespace soot::calc
