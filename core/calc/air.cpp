#include "core/calc/air.hpp"

#include <cmath>

namespace soot::calc {
namespace {

constexpr double sea_level_bar = 1.01325;
constexpr double sea_level_k = 288.15;
constexpr double lapse_k_per_m = 0.0065;
constexpr double exponent = 5.25588;

}  // namespace

double air_temperature_k(double height_m) {
  return sea_level_k - lapse_k_per_m * height_m;
}

double air_pressure_bar(double height_m) {
  return sea_level_bar * std::pow(air_temperature_k(height_m) / sea_level_k, exponent);
}

double air_density_share(double height_m) {
  return air_pressure_bar(height_m) / sea_level_bar * sea_level_k / air_temperature_k(height_m);
}

}  // namespace soot::calc
