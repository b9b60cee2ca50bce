// How dark smoke is, whatever the pipe it is looked at through.
//
// k = -ln(1 - N / 100) / L: UN Regulation No. 49 (OJ L 103, 12.4.2008, p. 300). Ringelmann's cards:
// 20 % of black each.
#pragma once

namespace soot::calc {

inline constexpr double opacity_path_m = 0.430;

/// Light taken away a metre; opacity in percent below 100, path > 0.
double smoke_k_per_m(double opacity_percent, double path_m);
double smoke_opacity_percent(double k_per_m, double path_m);
/// Card 0 to 5.
double ringelmann_percent(double card);

}  // namespace soot::calc
