#include "core/calc/ignition.hpp"

#include <cmath>

namespace soot::calc {
namespace {

constexpr double bar_in_atm = 1.01325;
constexpr double deg_per_ms_per_rpm = 0.006;
constexpr double gas_constant = 8.3143;

}  // namespace

double ms_of_deg(double angle_deg, double speed_rpm) {
  return angle_deg / (deg_per_ms_per_rpm * speed_rpm);
}

double deg_of_ms(double time_ms, double speed_rpm) {
  return time_ms * deg_per_ms_per_rpm * speed_rpm;
}

double wolfer_ms(double pressure_bar, double temperature_k) {
  return 0.44 * std::pow(pressure_bar / bar_in_atm, -1.19) * std::exp(4650 / temperature_k);
}

double activation_j_mol(double cetane) {
  return 618840 / (cetane + 25);
}

double hardenberg_deg(const Charge& charge, HardenbergForm form) {
  const double heat =
      activation_j_mol(charge.cetane) * (1 / (gas_constant * charge.temperature_k) - 1.0 / 17190);
  const double pressure = std::pow(21.2 / (charge.pressure_bar - 12.4), 0.63);
  const double power = form == HardenbergForm::sum ? heat + pressure : heat * pressure;
  return (0.36 + 0.22 * charge.piston_m_s) * std::exp(power);
}

}  // namespace soot::calc
