// What no table says of the engine: the lift of its pump cam. Everything else is text, in
// families/my-engine-1.toml. The cam here lifts as half a cosine wave; put yours in its place.
#include <sootsayer/plugin.hpp>

#include <algorithm>
#include <cmath>

namespace {

constexpr double pi = 3.14159265358979323846;
constexpr double begin_deg = -56, top_deg = 64;  // crank degrees from firing top centre
constexpr double total_mm = 10;

class MyEngine final : public soot_sdk::Family, public soot_sdk::CamLaw {
 public:
  using Family::Family;
  const CamLaw* cam_law() const override { return this; }

  // The lift above the base circle. It may be asked for any angle from -360 to 120.
  double lift_mm(double crank_deg) const override {
    const double share = (crank_deg - begin_deg) / (top_deg - begin_deg);
    return total_mm / 2 * (1 - std::cos(pi * std::clamp(share, 0.0, 1.0)));
  }
  // angle_deg, the way back, is found by halving; give your own where you know it in closed form.
};

}  // namespace

SOOT_PLUGIN(SOOT_PLUGIN_ID, SOOT_PLUGIN_VERSION, soot_sdk::one_of_each_file<MyEngine>)
