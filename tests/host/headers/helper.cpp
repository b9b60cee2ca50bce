// The helper header by itself, in each C++ standard it promises, with the class an author writes.
#include <sootsayer/plugin.hpp>

namespace {

class Odd final : public soot_sdk::Family, public soot_sdk::CamLaw {
 public:
  Odd() : Family("odd-1", "odd-1.toml", "# odd") {}
  const CamLaw* cam_law() const override { return this; }
  double lift_mm(double crank_deg) const override { return crank_deg > 0 ? crank_deg : 0; }
  double angle_deg(double lift_mm) const override { return lift_mm; }
};

soot_sdk::Families make_families(const soot_sdk::Host& host) {
  host.note("one family");
  soot_sdk::Families families;
  families.push_back(std::make_unique<Odd>());
  return families;
}

}  // namespace

SOOT_PLUGIN("odd", "1.0.0", make_families)
