// The Sallow Ness two: a reversing two-stroke. Its pump cam turns at the crank's speed and is
// symmetrical, in simple harmonic motion from base to nose, so that it serves ahead and astern
// alike; no named law of a table has that. The tables are a file beside the library.
#include <sootsayer/plugin.hpp>

#include <cmath>

namespace {

constexpr double pi = 3.14159265358979323846;

// lift = total/2 (1 - cos(pi x turned / rise)). The rise makes the lift 3.5 mm at 15 deg before
// top, where it grows by 0.20 mm/deg: there the cosine is 1/2 and the sine half the root of 3.
constexpr double total_lift = 14, closing_lift = 3.5, closing_deg = -15, closing_rate = 0.20;
const double rise_deg = pi * total_lift / 2 * std::sqrt(0.75) / closing_rate;

double turned_deg(double lift_mm) {
  return rise_deg / pi * std::acos(1 - 2 * lift_mm / total_lift);
}

class SallowNess final : public soot_sdk::Family, public soot_sdk::CamLaw {
 public:
  using Family::Family;
  const CamLaw* cam_law() const override { return this; }

  double lift_mm(double crank_deg) const override {
    const double turned = crank_deg - closing_deg + turned_deg(closing_lift);
    if (turned <= 0) return 0;
    if (turned >= rise_deg) return total_lift;
    return total_lift / 2 * (1 - std::cos(pi * turned / rise_deg));
  }

  double angle_deg(double lift_mm) const override {
    if (!(lift_mm > 0 && lift_mm < total_lift))
      throw std::out_of_range("the cam lifts from 0 to 14 mm");
    return closing_deg + turned_deg(lift_mm) - turned_deg(closing_lift);
  }
};

soot_sdk::Families make_families(const soot_sdk::Host& host) {
  const std::string name = "families/sallowness-2.toml";
  soot_sdk::Families families;
  families.push_back(std::make_unique<SallowNess>(
      "sallowness-2", name, soot_sdk::read_file(host.folders().at(0) + "/" + name)));
  return families;
}

}  // namespace

SOOT_PLUGIN(SOOT_PLUGIN_ID, SOOT_PLUGIN_VERSION, make_families)
