#include "core/calc/compression.hpp"

#include <cmath>

namespace soot::calc {

double end_pressure(double start_pressure, double ratio, double exponent) {
  return start_pressure * std::pow(ratio, exponent);
}

double compression_exponent(double pressure_ratio, double ratio) {
  return std::log(pressure_ratio) / std::log(ratio);
}

double exponent_at_speed(double exponent, double its_speed, double speed) {
  return warm_exponent - (warm_exponent - exponent) * std::sqrt(its_speed / speed);
}

double end_temperature_k(double start_k, double pressure_ratio, double ratio) {
  return start_k * pressure_ratio / ratio;
}

}  // namespace soot::calc
