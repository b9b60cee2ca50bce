// The Lodefoot single: a pump cam with a straight (tangent) flank and a round nose, under a roller.
// No named law has the nose, which begins 7 deg before top, so the arithmetic is here; the tables
// are a file beside the library, where a figure can be put right without a compiler.
#include <sootsayer/plugin.hpp>

#include <cmath>

namespace {

constexpr double pi = 3.14159265358979323846;
constexpr double cam_rad_per_crank_deg = pi / 360;  // four-stroke: half the crank's angle

// The cam in mm. With them the lift is 2.5 mm at 20 deg before top, where it grows by 0.11 mm/deg.
constexpr double base_radius = 15, roller_radius = 10, nose_radius = 5, total_lift = 8;
constexpr double closing_lift = 2.5, closing_deg = -20;

constexpr double flank_centre = base_radius + roller_radius;  // roller centre on the base circle
constexpr double nose_centre = base_radius + total_lift - nose_radius;  // of the nose's arc
constexpr double nose_path = nose_radius + roller_radius;  // roller centre about the nose's
// Cam angles from where the flank leaves the base circle: to the tip, to the end of the flank.
const double nose_rad = std::acos((base_radius - nose_radius) / nose_centre);
const double flank_end_rad = std::atan(nose_centre * std::sin(nose_rad) / flank_centre);
const double begin_deg =
    closing_deg - std::acos(flank_centre / (flank_centre + closing_lift)) / cam_rad_per_crank_deg;

class Lodefoot final : public soot_sdk::Family, public soot_sdk::CamLaw {
 public:
  using Family::Family;
  const CamLaw* cam_law() const override { return this; }

  double lift_mm(double crank_deg) const override {
    const double cam_rad = (crank_deg - begin_deg) * cam_rad_per_crank_deg;
    if (cam_rad <= 0) return 0;
    if (cam_rad <= flank_end_rad) return flank_centre / std::cos(cam_rad) - flank_centre;
    if (cam_rad >= nose_rad) return total_lift;
    const double to_tip = nose_rad - cam_rad;
    return nose_centre * std::cos(to_tip) - flank_centre +
           std::sqrt(std::pow(nose_path, 2) - std::pow(nose_centre * std::sin(to_tip), 2));
  }
};

}  // namespace

SOOT_PLUGIN(SOOT_PLUGIN_ID, SOOT_PLUGIN_VERSION, soot_sdk::one_of_each_file<Lodefoot>)
