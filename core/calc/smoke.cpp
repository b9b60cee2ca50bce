#include "core/calc/smoke.hpp"

#include <cmath>

namespace soot::calc {

double smoke_k_per_m(double opacity_percent, double path_m) {
  return -std::log(1 - opacity_percent / 100) / path_m;
}

double smoke_opacity_percent(double k_per_m, double path_m) {
  return 100 * (1 - std::exp(-k_per_m * path_m));
}

double ringelmann_percent(double card) {
  return 20 * card;
}

}  // namespace soot::calc
